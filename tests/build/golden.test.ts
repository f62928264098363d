import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { runMetadataCommand } from "../../src/cli/metadata/command";

interface Listed {
  readonly functions: {
    readonly id: string;
    readonly name: string;
    readonly parameters: { readonly name: string; readonly dimensionality?: string; readonly optional?: boolean }[];
    readonly result: { readonly type?: string; readonly dimensionality?: string };
  }[];
}

const listed = JSON.parse(readFileSync("src/functions/functions.json", "utf8")) as Listed;

/**
 * What workbooks rely on, written down apart from the sources: an id, the order of its arguments, which are ranges ([]) and which
 * may be left out (?). A range that turns into a single cell by a slip in a type would change every workbook without a word.
 */
const published = `
AIRCHANGERATE(flow[], volume[], units?) spills
AIRDENSITY(temperature[], barometric_pressure[]?, relative_humidity[]?, units?) spills
AIRVISCOSITY(temperature[], units?) spills
ALLOWEDLEAKAGE(target[], settings[]?, volumes[]?, envelope_areas[]?, floor_areas[]?) spills
AREAFLOW(area[], definition, exponent[], at[], pressure[]?, discharge_coefficient[]?, units?) spills
AVERAGEDRESULT(depressurization[], pressurization[], one_direction?)
BAROMETRICPRESSURE(altitude[], sea_level_pressure[]?, units?) spills
BASELINEPRESSURE(before[], after[]?)
CALIBRATEDVALUE(reading[], table[]) spills
COMPONENTLEAKAGE(amounts[], leakages[], rated_pressures[], exponents[]?, at[]?)
CONFORMANCEPROBABILITY(result[], standard_uncertainty[], target[], degrees_of_freedom[]?) spills
CONVERTUNITS(value[], from, to) spills
DECISIONRISK(result[], standard_uncertainty[], target[], prior_mean[]?, prior_deviation[]?, rule?, degrees_of_freedom[]?, headings?) spills
DENSITYCORRECTION(direction, indoor_temperature[], outdoor_temperature[], barometric_pressure[]?, indoor_humidity[]?, outdoor_humidity[]?, units?) spills
ENSCORE(result[], expanded_uncertainty[], other_result[], other_expanded_uncertainty[], common_uncertainty[]?, coverage_factor[]?, other_coverage_factor[]?, headings?) spills
ENVELOPESIZE(length[], width[], storeys[], storey_height[], roof_shape[]?, roof_rise[]?) spills
ENVELOPEVOLUME(areas[], heights[], length_tolerance[]?, convention?) spills
FANDEMAND(target[], highest[], settings[]?, openings[]?) spills
FANFLOW(fan_pressures[], coefficients[], exponents[], lowest[]?, highest[]?, calibration_density[]?, actual_density[]?) spills
FINALFORECAST(flow[], flow_uncertainty[], repairs[], openings[], target[], settings[]?) spills
FITRESIDUALS(pressures[], flows[], technique?, include[]?, headings?) spills
FLOORAREA(corners[])
FLOWEXPONENT(pressures[], flows[], technique?, include[]?)
HEATLOSS(flow[], temperature_difference[]?, degree_hours[]?, heat_capacity[]?, units?) spills
HOLEDIAMETER(area[], discharge_coefficient[]?, units?) spills
INDUCEDPRESSURE(readings[], baseline_before[], baseline_after[]?, direction?, pressure_sign?, times[]?, time_before[]?, time_after[]?) spills
INFILTRATIONFLOW(model, flow[], exponent[]?, temperature_difference[]?, wind_speed[]?, settings[]?) spills
LEAKAGEAREA(coefficient[], exponent[], definition, pressure[]?, discharge_coefficient[]?, units?) spills
LEAKAGECOEFFICIENT(pressures[], flows[], technique?, include[]?)
LEAKAGEDIFFERENCE(flow_before[], flow_after[], uncertainty_before[]?, uncertainty_after[]?, common_uncertainty[]?, headings?, degrees_before[]?, degrees_after[]?) spills
LEAKAGEFIT(pressures[], flows[], technique?, confidence[]?, include[]?, pressure_uncertainty[]?, flow_uncertainty[]?, headings?) spills
LEAKAGEFLOW(coefficient[], exponent[], pressure[]) spills
LOGSTATIONS(log[], settings[]?) spills
METHODVERSION(of[]?)
ONEPOINTFLOW(flow[], pressure[], exponent[]?, at[]?, baseline[]?, headings?) spills
PASSFAIL(result[], target[], expanded_uncertainty[]?, rule?, decimals[]?, validity[]?, other_validity[]?, directions?) spills
PRESSURESTATIONS(lowest[], highest[], count[], direction?, baseline[]?) spills
REFERENCECOEFFICIENT(coefficient[], exponent[], direction, indoor_temperature[], outdoor_temperature[], settings[]?) spills
RESULTCARD(direction, pressures[], flows[], baseline_before[], baseline_after[]?, settings[]?, include[]?)
SPECIFICLEAKAGE(flow[], area[], units?) spills
STACKPRESSURE(height[], indoor_temperature[], outdoor_temperature[], measuring_height[]?, neutral_height[]?, units?, indoor_humidity[]?, outdoor_humidity[]?) spills
TARGETGAP(flow[], target[], settings[]?) spills
TESTRESULT(direction, pressures[], flows[], baseline_before[], baseline_after[]?, settings[]?, include[]?) spills
TWOPOINTFLOW(flows[], pressures[], at[]?, baseline[]?, headings?) spills
UNCERTAINTYBUDGET(direction, pressures[], flows[], baseline_before[], baseline_after[]?, settings[]?, include[]?, other_direction[]?) spills
VALIDITYCHECKS(direction, pressures[], flows[], baseline_before[], baseline_after[]?, settings[]?, include[]?) spills
WINDPRESSURE(speed[], units?) spills
`;

describe("functions.json", () => {
  it("is what the sources say now", async () => {
    expect(await runMetadataCommand("src/functions", true)).toMatchObject({ succeeded: true });
  });

  it("keeps every id and every argument as published", () => {
    const lines = listed.functions.map(({ id, parameters, result }) => {
      const written = parameters.map(
        ({ name, dimensionality, optional }) =>
          `${name}${dimensionality === "matrix" ? "[]" : ""}${optional ? "?" : ""}`,
      );
      return `${id}(${written.join(", ")})${result.dimensionality === "matrix" ? " spills" : ""}`;
    });
    expect(lines).toEqual(published.trim().split("\n"));
  });

  // Both flags together crash a volume-licensed Excel 2021 (office-js issue 4385); the one for all data types lets errors in too.
  it("lets cards and errors reach the functions by one flag, shows the id as the name, and is far below Excel's limit of 1 MB", () => {
    expect(Object.keys(listed).filter((key) => key.startsWith("allow"))).toEqual(["allowCustomDataForDataTypeAny"]);
    expect(listed.functions.filter(({ id, name }) => id !== name)).toEqual([]);
    expect(readFileSync("src/functions/functions.json").length).toBeLessThan(200_000);
  });
});
