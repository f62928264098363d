declare module "psychrolib" {
  interface Psychrometrics {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(temperature: number): number;
    GetHumRatioFromRelHum(temperature: number, humidity: number, pressure: number): number;
    GetMoistAirDensity(temperature: number, humidityRatio: number, pressure: number): number;
    GetStandardAtmPressure(altitude: number): number;
  }
  const psychrolib: Psychrometrics;
  export default psychrolib;
}
