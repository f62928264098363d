import { directions, profiles, validityChecks as checksOf } from "../../core/index";
import { choice } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { pairedReadings } from "../cells/pairs";
import { headed } from "../cells/spread";
import { baselineReadings } from "../readings/baseline-pressure";
import { inMethodFlow, ofWholeTest } from "../results/whole-test";
import { settingsIn } from "../settings/settings";
import { factsOf } from "./validity/facts";
import { headings, rowOf } from "./validity/table";
import { missing } from "../cells/rule-codes";

/**
 * Whether one direction of a test is valid under the chosen standard: always the same 35 rows, one per check. Columns:
 * check, symbol, measured, limit, unit, outcome, binding or advisory, clause, what to do. Outcomes: "met", "not met",
 * "cannot be judged" (the last column names what is missing), blank where the standard has no limit. Marks: (C) read in
 * a published text; (M) from memory, with the words to look for in your own copy. The last row is the version of the
 * method. Give the whole table to PASSFAIL.
 * Source: the standard named by the setting "standard", ISO 9972:2015 if none is named.
 * @customfunction VALIDITYCHECKS
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, indoors minus outdoors, one per row; or two columns, time and pressure. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm). Several columns are several fans, added together; type "off" for a fan that is not running.
 * @param baseline_before Single baseline readings before the test, Pa, signed; an average hides what is checked. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value; in addition to those of TESTRESULT wind, building height, certificates and more, listed on the add-in's page. "q50 of the other direction" needs a separate block if it depends on this table.
 * @param [include] "yes" or "no" for each row. Blank or 0 means yes.
 * @returns The table.
 * @core judgement/validity.ts
 * @check authorities/standards.test.ts functions/validity/table.test.ts
 */
export function validityChecks(
  direction: string,
  pressures: any[][],
  flows: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  settings?: any[][],
  include?: any[][],
): any[][] {
  return inCell(() => {
    const way = choice(direction, directions, "direction");
    const given = settingsIn(settings);
    const baselines = baselineReadings(baseline_before, baseline_after);
    const readings = inMethodFlow(pairedReadings(pressures, flows, include, "in front").used, given, baselines);
    if (readings.length === 0) throw missing("pressures", "notGiven");
    return ofWholeTest(() => {
      const facts = factsOf(way, readings, baselines, given);
      const checks = checksOf(facts, given.standard, {
        windPlace: given["wind place"],
        reasonStated: given["low pressure reason"] !== undefined,
      });
      const { edition } = profiles[given.standard];
      const rows = checks.map((check) => rowOf(check, edition, given.system));
      return headed(headings, rows, given.headings);
    });
  });
}
