/**
 * Flow exponent where none was measured. RESNET/ICC 380 and ASTM E1827 assume it (from memory: check against your own copy).
 */
export const assumedExponent = 0.65;

/** Standard deviation of the exponent among buildings: 7 000 tests in the literature, mean 0.646. */
export const assumedExponentDeviation = 0.057;
