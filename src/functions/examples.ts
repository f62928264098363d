import { methodVersion } from "../core/index";

/** One argument of an example: a single value, a range as rows, or left out. */
export type ExampleArgument = number | string | boolean | null | readonly (readonly (number | string)[])[];

/** A call that can be pasted as is, and its result; a test runs each one through the built functions. */
export interface Example {
  readonly arguments: readonly ExampleArgument[];
  /** The first values in order, or rows of a table as "symbol = value"; every digit shown is checked. */
  readonly gives: string;
}

/** One made-up house throughout: induced pressures and flows of five readings. */
const pressures = [[60], [50], [40], [30], [20]];
const flows = [[574], [507], [441], [364], [281]];
const before = [[-1.2], [-1.6], [-1.4]];
const after = [[-1], [-1.4], [-1.2]];
const displayed = [[-61.3], [-51.3], [-41.3], [-31.3], [-21.3]];
const settings = [
  ["volume", 229.2],
  ["indoor temperature", 21],
  ["outdoor temperature", 3],
  ["flow basis", "actual at the fan"],
];
const corners = [
  [0, 0],
  [8, 0],
  [8, 6],
  [0, 6],
];

/** A gauge's certificate, and half a minute of a log. */
const certificate = [
  [-25, -25.1],
  [0, 0],
  [25, 25.2],
  [100, 100.4],
];
const log = [
  [0, -50.1],
  [5, -49.9],
  [10, -50.2],
  [15, -50],
  [20, -49.8],
  [25, -50.1],
  [30, -50],
  [35, -49.9],
];

/** The same house before its test, and a made-up flow device. */
const planned = [
  ["quantity", "air change rate"],
  ["volume", 229.2],
  ["indoor temperature", 21],
  ["outdoor temperature", 3],
];
const openings = [
  ["A", 12, 0.5, 20, 300],
  ["B", 30, 0.5, 20, 300],
];

export const examples: Readonly<Record<string, Example>> = {
  FLOORAREA: { arguments: [corners], gives: "48 m²" },
  ENVELOPEVOLUME: {
    arguments: [
      [[48], [42]],
      [[2.5], [2.6]],
    ],
    gives: "229.2 m³",
  },
  ENVELOPESIZE: { arguments: [10, 8, 2, 2.7], gives: "432 m³; 354.4 m²; 160 m²" },
  AIRDENSITY: { arguments: [20, 101325, 0.5], gives: "1.1988 kg/m³" },
  BAROMETRICPRESSURE: { arguments: [500], gives: "95460.8 Pa" },
  AIRVISCOSITY: { arguments: [20], gives: "0.000018134 Pa·s" },
  DENSITYCORRECTION: { arguments: ["depressurization", 21, 3], gives: "0.9358" },
  BASELINEPRESSURE: { arguments: [before, after], gives: "-1.3 Pa" },
  INDUCEDPRESSURE: { arguments: [[[-51.3], [-41.3]], before, after], gives: "-50 Pa; -40 Pa" },
  FANFLOW: { arguments: [[[25], [36], [49]], 60, 0.5], gives: "300 m³/h; 360 m³/h; 420 m³/h" },
  CALIBRATEDVALUE: { arguments: [50, certificate], gives: "50.2667 Pa" },
  LOGSTATIONS: { arguments: [log], gives: "10 s; 25 s; 15 s; 4; -50.025 Pa; 0.1708 Pa" },
  LEAKAGEFIT: { arguments: [pressures, flows], gives: "C = 40.101; n = 0.6494; r2 = 0.99990; q50 = 508.66" },
  LEAKAGECOEFFICIENT: { arguments: [pressures, flows], gives: "40.101 m³/(h·Paⁿ)" },
  FLOWEXPONENT: { arguments: [pressures, flows], gives: "0.6494" },
  LEAKAGEFLOW: { arguments: [40, 0.65, 50], gives: "508.62 m³/h" },
  FITRESIDUALS: { arguments: [pressures, flows], gives: "572.60 m³/h; 0.245 %" },
  REFERENCECOEFFICIENT: { arguments: [40, 0.65, "depressurization", 21, 3], gives: "40.825 m³/(h·Paⁿ)" },
  AIRCHANGERATE: { arguments: [508.6, 229.2], gives: "2.219 1/h" },
  SPECIFICLEAKAGE: { arguments: [508.6, 354.4], gives: "1.4351 m³/(h·m²)" },
  LEAKAGEAREA: { arguments: [40, 0.65, "effective 4 Pa"], gives: "106.14 cm²" },
  AVERAGEDRESULT: { arguments: [0.58, 0.62], gives: "0.60" },
  ONEPOINTFLOW: { arguments: [507, -47.3, null, null, -1.3], gives: "535.237 m³/h; 530.274 m³/h; 540.246 m³/h" },
  TWOPOINTFLOW: {
    arguments: [
      [[505], [206]],
      [[50], [12.5]],
    ],
    gives: "q_p = 505; n = 0.64682; C = 40.2128",
  },
  TESTRESULT: {
    arguments: ["depressurization", displayed, flows, before, after, settings],
    gives: "n = 0.6494; C_L = 38.301; q50 = 485.83; n50 = 2.1197",
  },
  RESULTCARD: {
    arguments: ["depressurization", displayed, flows, before, after, settings],
    gives: "2.1197 1/h",
  },
  VALIDITYCHECKS: {
    arguments: ["depressurization", displayed, flows, before, after, settings],
    gives: "dp_min = 20; dp0_of_min = 7; dp_max = 60; dp_step = 10; n = 0.6494",
  },
  UNCERTAINTYBUDGET: {
    arguments: ["depressurization", displayed, flows, before, after, settings],
    gives: "g_e = 0.0057735; scatter_d = 0.00162068; u_rel = 0.0279483; u_c = 0.0592413; dof_eff = 190.502; dof = 190",
  },
  CONFORMANCEPROBABILITY: { arguments: [0.58, 0.015, 0.6], gives: "0.9050" },
  PASSFAIL: { arguments: [0.58, 0.6], gives: "pass" },
  DECISIONRISK: {
    arguments: [0.58, 0.015, 0.6, 0.55, 0.08, "guarded acceptance"],
    gives:
      "A = 0.57034; w = 0.029655; p_c = 0.90505; p_c_prior = 0.92057; p_prior = 0.74975; R_C = 0.00051376; R_P = 0.12538",
  },
  ENSCORE: { arguments: [0.58, 0.03, 0.62, 0.04, 0.01], gives: "-0.85042; -1.70085; -6.4516 %" },
  TARGETGAP: {
    arguments: [508.6, 1.5, planned],
    gives: "q_remove = 164.8; remove_pct = 32.403; ELA4 = 34.391; A_hole = 83.721; d_hole = 103.246",
  },
  LEAKAGEDIFFERENCE: {
    arguments: [236, 200, 5.3, 4.5, 0.02],
    gives: "36 m³/h; 3.2527 m³/h; 29.6248 m³/h; 42.3752 m³/h",
  },
  HOLEDIAMETER: { arguments: [15, 0.6], gives: "56.419 mm" },
  FINALFORECAST: {
    arguments: [508.6, 10, [[120, 80, 150]], [[40, 20, 60]], 2, planned],
    gives:
      "p_meet = 0.90848; q50_likely = 428.6; q50_best = 359.373; q50_worst = 508.582; likely = 1.8700; q50_limit = 458.4",
  },
  ALLOWEDLEAKAGE: {
    arguments: [0.6, [["quantity", "air change rate"]], [[229.2], [450]]],
    gives: "137.52 m³/h; 137.52 m³/h; 0.6 1/h",
  },
  PRESSURESTATIONS: {
    arguments: [20, 60, 5, "depressurization", -1.3],
    gives: "-60 Pa; -61.3 Pa; -50 Pa; -51.3 Pa",
  },
  FANDEMAND: {
    arguments: [0.6, 60, planned, openings],
    gives: "q50 = 137.52; q_fan_dep = 162.11; q_ind_dep = 161.45; p_fan_dep = 181.02; q_fan_pres = 145.29",
  },
  STACKPRESSURE: { arguments: [8, 20, 0], gives: "-3.458 Pa" },
  WINDPRESSURE: { arguments: [6], gives: "21.674 Pa" },
  COMPONENTLEAKAGE: { arguments: [[[20], [2]], [[3], [9]], 100], gives: "49.137 m³/h" },
  AREAFLOW: { arguments: [15, "custom", 0.5, 50, 50, 0.6], gives: "29.527 m³/h" },
  INFILTRATIONFLOW: {
    arguments: [
      "basic",
      508.6,
      0.65,
      18,
      4,
      [
        ["storeys", 2],
        ["shelter class", 3],
      ],
    ],
    gives: "36.079 m³/h",
  },
  HEATLOSS: { arguments: [30, 20, 84000], gives: "10.2 W/K; 204 W; 856.8 kWh" },
  CONVERTUNITS: { arguments: [300, "m³/h", "cfm"], gives: "176.573 cfm" },
  METHODVERSION: { arguments: [], gives: methodVersion },
};
