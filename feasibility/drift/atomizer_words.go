package drift

import "tractcheck/feasibility/spray"

// What to do about the size of the drops depends on what makes them: a disc has no nozzle to change and
// no pressure to set. An atomizer that was not stated is taken for nozzles, the usual case.

// coarser says how to get larger drops.
func (s Spray) coarser() string {
	if s.Atomizer == spray.RotaryAtomizer {
		return "Slow the discs down. If the drops were measured at your disc speed, send spectra."
	}
	return "Use a larger or air-induction nozzle, or less pressure. If the nozzle's own chart shows another class at your pressure, send that."
}

// finer says how to get smaller drops.
func (s Spray) finer() string {
	if s.Atomizer == spray.RotaryAtomizer {
		return "Turn the discs faster. If the drops were measured at your disc speed, send spectra."
	}
	return "Use a smaller nozzle or more pressure. If the nozzle's own chart shows another class at your pressure, send that."
}

// askClass says how to settle which class the drops are of.
func (s Spray) askClass() string {
	if s.Atomizer == spray.RotaryAtomizer {
		return "Ask for the drop sizes measured at your disc speed and send spectra."
	}
	return "Ask for the nozzle's measured class at your pressure and send it."
}

// describe says what to send where the drop size is not known.
func (s Spray) describe() string {
	if s.Atomizer == spray.RotaryAtomizer {
		return "Send the diameter and the rotation of the discs, or the measured droplet sizes."
	}
	return "Send the nozzle with its rated flow and pressure, or the measured droplet sizes."
}
