// Package expected computes what a healthy plant should read, each value with
// the standard or rule it comes from.
//
// Every function gives an [Expected]: a low limit, a nominal value and a high
// limit, any of which may be absent, with unit, source and a note for people.
// [Expected.Interval] turns it into what a widened reading is judged against. For
// sensors choose a [Curve] ([Table] where the maker's table is at hand, else
// [SteinhartHart], else [Beta]; [Platinum] for Pt100 and Pt1000) and ask
// [Thermistor] or [PlatinumAt].
//
// Resistances are in ohms, lengths in metres, areas in mm², temperatures in °C,
// as the Unit field says. Tables of standards are quoted only as far as a
// domestic heat pump needs them; figures given from memory say so in their source.
package expected
