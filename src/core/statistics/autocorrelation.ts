/** Rows one after the other are alike where gusts last longer than a row; these are the figures that follow from it. */

function clip(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/**
 * Autocorrelation φ of neighbouring rows, from the sample's r1 = Σd_i·d_{i+1}/Σd², which short series understate by about (1 + 4·r1)/m; at least 0, at most 0.98.
 * @param count Rows of the series; of several series, their mean.
 * Source: F. H. C. Marriott, J. A. Pope, "Bias in the estimation of autocorrelations", Biometrika 41 (1954) 390 (from memory); the bounds are the method's.
 */
export function autocorrelation(r1: number, count: number): number {
  return clip(r1 + (1 + 4 * r1) / count, 0, 0.98);
}

/** How many independent rows the mean of a series is worth: m(1 − φ)/(1 + φ), at least 2. Source: first-order autoregression, Box and Jenkins (from memory). */
export function effectiveCount(count: number, correlation: number): number {
  return clip((count * (1 - correlation)) / (1 + correlation), 2, count);
}

/**
 * Standard error of the mean of correlated rows.
 * @param squares Σd² about the mean. Correlated rows understate the variance, hence the division by m − m/m_eff; m_eff of 2 or more keeps it at m/2 or more.
 */
export function standardErrorOfMean(squares: number, count: number, effective: number): number {
  return Math.sqrt(squares / (count - count / effective) / effective);
}

/** Batches of rows whose means are taken as independent, and the rows from which on they are tried. */
export const batches = 6;
export const rowsForBatches = 30;

/**
 * Standard error of the mean from six equal batches of the last rows from `first` to `last`: √(Σ(b − b̄)²/5/6). Batch means are deviations from the series' mean, so that no digits are lost.
 * Source: batch means as in A. M. Law, "Simulation Modeling and Analysis" (from memory).
 */
export function standardErrorByBatches(values: ArrayLike<number>, first: number, last: number, mean: number): number {
  const size = Math.floor((last - first + 1) / batches);
  let index = last - size * batches + 1;
  let sum = 0;
  let squares = 0;
  for (let batch = 0; batch < batches; batch++) {
    let deviations = 0;
    for (const end = index + size; index < end; index++) deviations += values[index]! - mean;
    const deviation = deviations / size;
    sum += deviation;
    squares += deviation * deviation;
  }
  const aboutTheirMean = Math.max(0, squares - (sum * sum) / batches);
  return Math.sqrt(aboutTheirMean / (batches - 1) / batches);
}
