import { computeCalibrationRatios } from "../stated-facts";
import type { Check } from "../review";
import { sumFlow, readWord } from "../../book/whole-tests";
import { shorten } from "../../file/problem";

/** A flow column that is what the device's calibration gives, c·f^m, and is declared as something else. */
export const checkFlowBasis: Check = ({ view, tests }) =>
  tests.flatMap((test) => {
    const readings = test.readings.filter(({ flows }) => flows.length === 1);
    const flows = readings.map((reading) => sumFlow(view, reading));
    const basis = readWord(view, test, "flow basis");
    const place = test.settings.get("flow basis")?.place;
    if (!place || basis === "" || flows.length < 3 || flows.some((flow) => flow === undefined)) return [];
    const found = computeCalibrationRatios(view, readings, flows as number[]);
    const isIndicated = found.some((ratio) => Math.abs(ratio - 1) <= 1e-4);
    if (!isIndicated || basis === "indicated at calibration density") return [];
    return [
      {
        kind: "flow basis",
        severity: "wrong",
        place: view.formatAddress(place),
        what: `The flows of ${test.direction} are c·f^m of the device's certificate, indicated at calibration density; the test is told “${shorten(basis)}”.`,
        why: "At −10 °C outdoors an omitted density correction is 5.5 % of the result, a double one 5 %.",
        todo: "Set the flow basis to “indicated at calibration density”.",
      } as const,
    ];
  });
