/**
 * Standard errors of a line. At `turningX`, a deviation from the plain mean of ln Δp, the errors of level and slope are independent, so that
 * u²(ln q_p) = ofLevel² + (ℓ − turning point)²·ofExponent² and cov(n, ln C) = −(turning point)·ofExponent².
 */
export interface LineErrors {
  readonly turningX: number;
  readonly ofLevel: number;
  readonly ofExponent: number;
}
