import type { ForecastPlaces } from "./forecast";
import type { PointTestPlaces } from "./point-test";
import type { SeriesPlaces } from "./series";

/** What the first page is made from: both tests, the series of repairs, the forecast. */
export interface OverviewSources {
  readonly tests: readonly [PointTestPlaces, PointTestPlaces];
  readonly series: SeriesPlaces;
  readonly forecast: ForecastPlaces;
}
