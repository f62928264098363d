/**
 * Random error of a reading where it is neither stated nor found, standard: gusts of 1 Pa and 1 % of the flow. Only their ratio counts, since the scatter gives the size. Where the noise
 * of the pressure is known, that of the flow is what the fan gauge resolves and repeats, 0.5 %. Common practice, no source.
 */
export const assumedNoise = { pressure: 1, flow: 0.01, flowBesideKnownPressure: 0.005 };
