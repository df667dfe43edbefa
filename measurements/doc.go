// Package measurements holds what a service engineer reads off a meter: the
// quantities, the readings people type, and the meters they were read on.
//
// Start with [Parse], which turns typed text into a [Reading]. Then ask the
// [ModeSpec] of the meter in hand to [ModeSpec.Widen] it: a reading is never a
// number but the interval the true value lies in, and only a whole interval can
// be judged ([Interval.Against]). [DefaultKit] is the bag of instruments assumed
// until somebody says otherwise. Expected values, each with the standard it
// comes from, are in the package expected beside this one.
//
// Values are in SI units inside (volts, ohms, amperes) and degrees Celsius for
// temperature; [Quantity.Format] gives the trade's writing. The package reads no
// files and no clock, keeps no state, and imports nothing else of this module.
package measurements
