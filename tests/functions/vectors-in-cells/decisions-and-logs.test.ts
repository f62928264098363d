import { describe, expect, test } from "vitest";
import { conformanceProbability, leakageDifference, logStations, passFail } from "../../../src/functions";
import { expectAgreement } from "../../authorities/support/compare";
import { block, numberOf, single } from "../../authorities/support/sheet";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";
import { type Table, ESTIMATE, UNCERTAINTY } from "./curve-cells";

describe("conformity", () => {
  test.each(vectors.conformity)("$result, u $standard_uncertainty, limit $target, $dof degrees of freedom", (row) => {
    const { result, standard_uncertainty, target, dof, U, probability } = row;
    const p = single(conformanceProbability([[result]], [[standard_uncertainty]], [[target]], [[dof]]));
    expect(Math.abs(p - probability)).toBeLessThan(1e-11 * probability + 1e-300);
    const decide = (rule: string) => passFail([[result]], [[target]], [[U]], rule)[0]![0] as unknown;
    expect(decide("plain")).toBe(row.plain);
    expect(decide("guarded acceptance")).toBe(row.guarded_acceptance);
    expect(decide("guarded rejection")).toBe(row.guarded_rejection);
  });

  test.each(vectors.equality_at_limit)("$result_expression against $target: $plain", (row) => {
    const number = (text: string): number =>
      text
        .replace(/[()]/g, "")
        .split("*")
        .map((factor) => factor.split("+").reduce((sum, term) => sum + Number(term), 0))
        .reduce((product, factor) => product * factor);
    expect(passFail([[number(row.result_expression)]], [[row.target]])).toEqual([[row.plain]]);
  });

  test.each(vectors.rounding.filter(({ e29 }) => e29 > 0))("$value to $decimals decimals is $e29", (row) => {
    const within = (limit: number) => passFail([[row.value]], [[limit]], undefined, "plain", [[String(row.decimals)]]);
    expect(within(row.e29)).toEqual([["pass"]]);
    expect(within(row.e29 - 0.4 * 10 ** -row.decimals)).toEqual([["fail"]]);
  });
});

test.each(vectors.repair)(
  "LEAKAGEDIFFERENCE, $flow_before and $flow_after, degrees $dof_before and $dof_after",
  (row) => {
    const { flow_before, flow_after, u_before, u_after, common_relative, dof_before, dof_after } = row;
    const cell = (value: unknown) => [[value]];
    const [cells] = leakageDifference(
      cell(flow_before),
      cell(flow_after),
      cell(u_before),
      cell(u_after),
      cell(common_relative),
      "no",
      cell(dof_before),
      cell(dof_after),
    );
    const [change, u, lower, upper, , , word] = cells as unknown[];
    expectAgreement(numberOf(u), row.u_change, 1e-9, UNCERTAINTY);
    for (const [cell, expected] of [
      [change, row.change],
      [lower, row.change - row.U_change],
      [upper, row.change + row.U_change],
    ] as const)
      expect(Math.abs(numberOf(cell) - expected)).toBeLessThan(1e-9 * (Math.abs(expected) + row.U_change));
    expect(word).toBe(row.significant ? "significant" : "not significant");
  },
);

test.each(vectors.stations)("LOGSTATIONS, tolerance $tolerance Pa", (row) => {
  const log = row.pressures.map((pressure, index) => [index * row.interval_s, pressure]);
  const settings = { "time unit": "seconds", tolerance: row.tolerance, "shortest station": row.shortest };
  const stations = logStations(log, block(settings)) as Table;
  expect(stations.length).toBe(row.expected.length);
  row.expected.forEach((station, index) => {
    const [, , , count, mean, sd, se, nu, drift, , , , , , first, last] = stations[index]!.map((cell) => cell);
    expect([first, last, count]).toEqual([station.first_row, station.last_row, station.count]);
    expectAgreement(numberOf(mean), station.mean, 1e-11, ESTIMATE);
    for (const [cell, expected] of [
      [sd, station.sd],
      [se, station.se],
      [nu, station.nu],
      [drift, station.drift],
    ] as const)
      expectAgreement(numberOf(cell), expected, 1e-9, UNCERTAINTY);
  });
});
