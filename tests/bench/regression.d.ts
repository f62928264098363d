declare module "regression" {
  interface Fitted {
    readonly equation: number[];
    readonly r2: number;
  }
  const regression: { power(points: [number, number][], options: { precision: number }): Fitted };
  export default regression;
}
