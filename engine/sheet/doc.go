// Package sheet is the job sheet: what a job's events say, in words, for those
// who were not there. It does no I/O and reads no clock: the same events with
// the same library give the same bytes.
//
// Start with [Of], which makes a [Sheet] of events, and render it with [Text],
// [HTML] or [JSON].
//
// # JSON
//
// One object. What is empty is left out; times are RFC 3339 in UTC; volts and
// other values are in SI units or °C; event numbers are those of the journal.
//
//	format        1; raised when a key changes its meaning
//	job           id of the job
//	state         open, or how it ended: proven · left safe, retest due · referred · abandoned
//	opened, last  times of the first and the latest event
//	recorded_by   names under which events were recorded
//	builds        programs that recorded them
//	trees, safety hashes, as the job began: of its tree set; of cautions, gates and stops
//	damage        what is wrong with the journal; the sheet holds what could be read before it
//	doubts        readings these trees judge otherwise, words that have changed since
//	intake        danger, operator, told, changed: the answers in words; by_phone
//	sign          id and words of the symptom; several where the readings led on to another
//	hands         who touched the plant, from which event on: event, at, by, kind, words, certificates, supervisor,
//	              by_phone, proving_unit, calibrated, instruments (id, name, calibrated)
//	plant         id, words, facts (ask, answer), supplies (id, words, breaker, rcd, devices)
//	              devices: id, words, where, poles, lockable
//	findings      likely causes: event (of the repair), epoch, causes (id, words), deciding, second, against,
//	              ruled_out, also_possible, behind, source, repair
//	              repair: event, at, by, cause, did, parts, retests (check, words, purpose, state)
//	readings      event, at, by, epoch, step, check, words, state, purpose, quantity, values, answer, answered,
//	              expected, verdict, taken_back (the event that did), taken_back_why, doubt
//	              values: as, name, from, to, mode, meter, typed, low, high (null: above every range), unit, open,
//	              moving, reads, expected
//	compared      the same check before and after a repair: epoch, check, words, before, after (event, reads, verdict)
//	left_out      checks not made: event, at, by, check, words, why, taken_back
//	turns         the tree's order left: event, at, by, to, words, why, taken_back
//	acts          done to the plant: event, at, by, do, on, words, minutes, outcome (done, cannot, found), why, proof
//	              proof: line, words, mode, typed, volts
//	cautions      shown with answers, acts and readings: id, words, event (the first time)
//	remarks       event, at, by, kind (note, stopped, resumed, taken back), words
//	end           event, at, by, as, words, to, leave, customer, overnight
//	left          how the plant stands: off, locked, open, unplugged, called, exposed (open and not kept out of power for certain), unseen
//	              (set before a break or by other hands, and not seen since)
//	open          what is left to do or to find out
//	rules         jurisdiction (id, words), law, standards
//	likely_only   the sentence that every sheet carries
package sheet
