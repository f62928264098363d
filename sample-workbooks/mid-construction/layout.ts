/** Sheet names, in the order of the tabs. */
export const sheets = {
  overview: "Overview",
  basis: "House and instruments",
  quick: "Quick tests",
  twoPoint: "Two-point test",
  first: "Multi-point 1",
  register: "Leak register",
  series: "Tape and retest",
  second: "Multi-point 2",
  ranking: "Ranking and totals",
  trade: "Trade sheet",
  forecast: "Gap and forecast",
  limits: "Limits",
  cautions: "Cautions",
} as const;

/** Neutral: a footer cannot follow a cell. */
export const footer = "Airtightness while the barrier is open";

/** An INDEX into a table that spills, by its row's symbol; blank while the table gives none. */
export function bySymbol(symbols: string, values: string): (symbol: string) => string {
  return (symbol) => `IFERROR(INDEX(${values},MATCH("${symbol}",${symbols},0)),"")`;
}

/** The leak register's table, by which other sheets call its columns. */
export const leakTable = "Leaks";
