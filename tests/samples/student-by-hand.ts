/** Student's distribution up to t by Simpson's rule over its density, which is scaled by its own integral. */
export function studentBelow(t: number, freedom: number): number {
  const height = (x: number) => Math.exp((-(freedom + 1) / 2) * Math.log1p(x ** 2 / freedom));
  // With x = tan(a) the whole axis becomes a bounded one.
  const area = (to: number) => {
    const [from, steps] = [-Math.PI / 2, 20_000];
    const width = (to - from) / steps;
    let sum = 0;
    for (let index = 1; index < steps; index++) {
      const angle = from + index * width;
      sum += (index % 2 === 0 ? 2 : 4) * height(Math.tan(angle)) * (1 + Math.tan(angle) ** 2);
    }
    const ends = Math.abs(to) < Math.PI / 2 - 1e-9 ? height(Math.tan(to)) * (1 + Math.tan(to) ** 2) : 0;
    return ((sum + ends) * width) / 3;
  };
  return area(Math.atan(t)) / area(Math.PI / 2);
}

/** Two-sided quantile by bisection. */
export function studentQuantile(confidence: number, freedom: number): number {
  let [low, high] = [0, 20];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (studentBelow(middle, freedom) < (1 + confidence) / 2) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
