/** Standard acceleration of free fall, 9.80665 m/s² exactly. BIPM, 3rd CGPM 1901; NIST SP 811 (2008), appendix B. */
export const freeFall = 9.80665;

/** The pressure at which most limits hold, Pa. */
export const usualPressure = 50;
