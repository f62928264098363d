/** Ten readings of an invented house, induced pressures in Pa and flows in m³/h. */
export const pressures = [62, 57, 52, 46, 41, 36, 31, 26, 21, 16];
export const flows = [272.5, 255.9, 243.6, 223, 208, 188.9, 173.4, 152.9, 134.8, 111.4];

const column = (values: readonly number[]) => values.map((value) => [value]);

const everyOther = <Cell>(cells: readonly Cell[]) => cells.filter((_, index) => index % 2 === 0);

export const [pressureCells, flowCells] = [column(pressures), column(flows)];
export const [halfOfPressures, halfOfFlows] = [everyOther(pressureCells), everyOther(flowCells)];
const signed = column(pressures.map((pressure) => -1.5 - pressure));
const halfOfSigned = everyOther(signed);
const settings = [
  ["volume", 420],
  ["flow basis", "indicated at calibration density"],
  ["indoor temperature", 21],
  ["outdoor temperature", 5],
];

/** The readings as the arguments of a whole test, up to its settings; more settings may follow. */
export function wholeTest(...more: [label: string, value: unknown][]): unknown[] {
  return testOf(signed, flowCells, more);
}

/** The same with every other reading only. */
export function testOfHalf(): unknown[] {
  return testOf(halfOfSigned, halfOfFlows);
}

function testOf(pressures: unknown, flows: unknown, more: readonly [label: string, value: unknown][] = []): unknown[] {
  return ["depressurization", pressures, flows, column([-1.3, -1.5]), column([-1.6, -1.7]), [...settings, ...more]];
}
