import { computeCalibrationRatios } from "../stated-facts";
import type { Check } from "../review";
import { sumFlow, readWord } from "../../book/tests/entered-runs";
import { shorten } from "../../file/problem";

/** A flow column that matches the device's calibration, c·f^m, but is declared as something else. */
export const checkFlowBasis: Check = ({ view, runs }) =>
  runs.flatMap((run) => {
    const readings = run.readings.filter(({ flows }) => flows.length === 1);
    const flows = readings.map((reading) => sumFlow(view, reading));
    const basis = readWord(view, run, "flow basis");
    const place = run.settings.get("flow basis")?.place;
    if (!place || basis === "" || flows.length < 3 || flows.some((flow) => flow === undefined)) return [];
    const found = computeCalibrationRatios(view, readings, flows as number[]);
    const isIndicated = found.some((ratio) => Math.abs(ratio - 1) <= 1e-4);
    if (!isIndicated || basis === "indicated at calibration density") return [];
    return [
      {
        kind: "flow basis",
        severity: "error",
        place: view.formatAddress(place),
        what: `The ${run.direction} flows are c·f^m from the device's certificate, indicated at calibration density; the flow basis says “${shorten(basis)}”.`,
        why: "At −10 °C outdoors, omitting the density correction changes the result by 5.5 %, applying it twice by 5 %.",
        todo: "Set the flow basis to “indicated at calibration density”.",
      } as const,
    ];
  });
