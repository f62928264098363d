import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  conformanceProbability,
  conformanceWithPrior,
  decisionRisk,
  globalRisks,
  normalProbability,
  verdict,
  type DecisionRule,
} from "../../src/core";
import figures from "./decision-risk/figures.json";
import { Random } from "./high-precision/random";
import { expectAgreement, expectPrinted } from "./support/compare";
import vectors from "./uncertainty-vectors/vectors.json";

const normalError = (uncertainty: number) => ({ uncertainty, degreesOfFreedom: Infinity });

describe.each(vectors.risks)(
  "$result, u $standard_uncertainty, against $target; prior $prior_mean, $prior_deviation; $rule, $dof degrees",
  (row) => {
    const degreesOfFreedom = typeof row.dof === "number" ? row.dof : Infinity;
    const prior = { mean: row.prior_mean, deviation: row.prior_deviation };
    const terms = { rule: row.rule as DecisionRule, degreesOfFreedom, prior };
    const { acceptanceLimit, conformance, withPrior } = decisionRisk(
      row.result,
      row.standard_uncertainty,
      row.target,
      terms,
    );

    test.each([
      ["acceptance limit", acceptanceLimit, row.acceptance_limit],
      ["probability of conformance", conformance.met, row.p_c],
      ["the same with the prior", withPrior!.conformance.met, row.p_c_prior],
      ["by the prior alone", withPrior!.priorMet, row.p_prior],
      ["global consumer's risk", withPrior!.globalRisks.consumer, row.R_C],
      ["global producer's risk", withPrior!.globalRisks.producer, row.R_P],
    ])("%s", (_, actual, expected) => {
      expectAgreement(actual, expected, 1e-12, "fifteen digits, computed in fifty by other integrals");
    });
  },
);

describe("JCGM 106:2012, its examples on their linear scale", () => {
  test.each(figures.one_sided)("$what: p_c $p_c", ({ estimate, u, limit, p_c, decimals }) => {
    // A prior that says nothing.
    const known = conformanceWithPrior(estimate, limit, { mean: estimate, deviation: 1e5 * u }, normalError(u));
    expectPrinted(known.met, p_c, decimals);
    expect(known.met + known.exceeded).toBeCloseTo(1, 14);
  });

  test.each(figures.table_1)("table 1: z $z for p_c $p_c", ({ p_c, z }) => {
    const at = (z: number) => conformanceWithPrior(-z, 0, { mean: 0, deviation: 1e6 }, normalError(1)).met;
    expect(at(z - 0.005)).toBeLessThan(p_c);
    expect(at(z + 0.005)).toBeGreaterThan(p_c);
  });

  test("resistors of 1500 Ω ± 0.2 Ω, made with 0.12 Ω, measured with 0.04 Ω, accepted within 0.18 Ω: 1 % and 7 %", () => {
    const { nominal, u0, u, tolerance, acceptance, ...printed } = figures.resistors;
    const prior = { mean: nominal, deviation: u0 };
    const { consumer, producer } = globalRisks(nominal + tolerance, nominal + acceptance, prior, normalError(u));
    expectPrinted(200 * consumer, printed.R_C_percent, 0);
    expectPrinted(200 * producer, printed.R_P_percent, 0);
    expectPrinted(200 * (1 - normalProbability(tolerance / u0)), printed.nonconforming_percent, 0);
  });

  test("the logarithm of so narrow a tolerance is straight: the same risks to 1e-3", () => {
    const { nominal, u0, u, tolerance } = figures.resistors;
    const prior = { mean: nominal, deviation: u0 };
    const linear = globalRisks(nominal + tolerance, nominal + tolerance, prior, normalError(u));
    const { withPrior } = decisionRisk(nominal, u, nominal + tolerance, { rule: "plain", prior });
    expectAgreement(withPrior!.globalRisks.consumer, linear.consumer, 1e-3, "the second term of the logarithm");
    expectAgreement(withPrior!.globalRisks.producer, linear.producer, 1e-3, "the second term of the logarithm");
  });

  test.each(figures.guard_banding)("limit $limit, ratio $ratio, guard factor $guard (Deaver 1994)", (row) => {
    const risks = globalRisks(row.limit, row.guard * row.limit, { mean: 0, deviation: 1 }, normalError(1 / row.ratio));
    expectPrinted(2 * risks.consumer, row.false_accept, row.false_accept_decimals);
    if (row.false_reject !== undefined) expectPrinted(2 * risks.producer, row.false_reject, row.false_reject_decimals);
  });
});

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Prior, limit and acceptance limit some deviations apart, errors from a thousandth of the prior to ten times it. */
const cases = fc.record({
  limit: between(-4, 4),
  guard: between(-3, 3),
  width: between(-3, 1).map((exponent) => 10 ** exponent),
  measured: between(-6, 6),
});

describe("laws of the risks, normal error", () => {
  const prior = { mean: 0, deviation: 1 };

  test("accepted = conforming + consumer's risk − producer's risk, with the closed forms of both", () => {
    fc.assert(
      fc.property(cases, ({ limit, guard, width }) => {
        const acceptance = limit + guard * width;
        const { consumer, producer } = globalRisks(limit, acceptance, prior, normalError(width));
        const accepted = normalProbability(acceptance / Math.hypot(1, width));
        expect(Math.abs(accepted - normalProbability(limit) - (consumer - producer))).toBeLessThan(1e-13);
      }),
    );
  });

  test("the posterior is normal: Φ((T − m)/s), both tails with their digits", () => {
    fc.assert(
      fc.property(cases, ({ limit, width, measured }) => {
        const { met, exceeded } = conformanceWithPrior(measured, limit, prior, normalError(width));
        const z = (limit - measured / (1 + width ** 2)) / (width / Math.hypot(1, width));
        fc.pre(Math.abs(z) < 30);
        // z·eps/width of the tail's argument is lost where the limit is a difference of numbers of order 1.
        const tolerance = 1e-11 + (1e-15 * Math.abs(z)) / width;
        expectAgreement(met, normalProbability(z), tolerance, "the argument of the tail is a difference");
        expectAgreement(exceeded, normalProbability(-z), tolerance, "the argument of the tail is a difference");
      }),
    );
  });

  test("a mirror exchanges the two risks, another scale changes nothing, a stricter acceptance limit moves risk from one side to the other", () => {
    fc.assert(
      fc.property(cases, between(0.1, 10), ({ limit, guard, width }, factor) => {
        const acceptance = limit + guard * width;
        const risks = globalRisks(limit, acceptance, prior, normalError(width));
        const mirrored = globalRisks(-limit, -acceptance, prior, normalError(width));
        expectAgreement(mirrored.consumer, risks.producer, 1e-11, "the same integral from the other side");
        const scaledPrior = { mean: 3, deviation: factor };
        const at = (x: number) => 3 + factor * x;
        const scaled = globalRisks(at(limit), at(acceptance), scaledPrior, normalError(factor * width));
        expectAgreement(scaled.consumer, risks.consumer, 1e-8, "limit less acceptance limit is a difference");
        const stricter = globalRisks(limit, acceptance - width, prior, normalError(width));
        expect(stricter.consumer).toBeLessThan(risks.consumer);
        expect(stricter.producer).toBeGreaterThan(risks.producer);
      }),
    );
  });
});

test("a prior that says nothing leaves the probability of the result alone, few degrees of freedom included", () => {
  for (const degreesOfFreedom of [1, 2, 5, 30, 400, Infinity])
    for (const result of [0.5, 0.58, 0.63]) {
      const error = { uncertainty: 0.03, degreesOfFreedom };
      const vague = conformanceWithPrior(Math.log(result), Math.log(0.6), { mean: 0, deviation: 3e5 }, error);
      const alone = conformanceProbability(result, 0.03 * result, 0.6, degreesOfFreedom);
      expectAgreement(vague.met, alone, 1e-5, "of Cauchy's tails 1e-7 lie where the prior has ended");
    }
});

test("prior and result that contradict each other still give a probability, not NaN", () => {
  const { withPrior } = decisionRisk(5, 0.05, 2, { rule: "plain", prior: { mean: 0.5, deviation: 0.005 } });
  const { met, exceeded } = withPrior!.conformance;
  expect(met + exceeded).toBeCloseTo(1, 14);
  expect(met).toBeGreaterThan(0);
});

describe("simulated: houses of a programme, tested and decided", () => {
  const [mean, deviation, limit, relative] = [0.55, 0.12, 0.6, 0.06];
  const logVariance = Math.log(1 + (deviation / mean) ** 2);
  const student = (random: Random, degrees: number) => {
    if (degrees === Infinity) return random.normal();
    const squares = random.list(degrees, () => random.normal() ** 2);
    return random.normal() / Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / degrees);
  };

  test.each([
    ["plain", Infinity],
    ["guarded acceptance", Infinity],
    ["guarded rejection", Infinity],
    ["guarded acceptance", 4],
  ] as const)(
    "%s, %d degrees of freedom: global risks and the probability with the prior",
    (rule, degreesOfFreedom) => {
      const random = new Random(20_261_129);
      const houses = 200_000;
      const expanded = decisionRisk(1, relative, 1, { rule, degreesOfFreedom }).upper;
      let [wrongPass, wrongFail, near, nearAndMet] = [0, 0, 0, 0];
      for (let house = 0; house < houses; house++) {
        const truth = mean * Math.exp(-logVariance / 2 + Math.sqrt(logVariance) * random.normal());
        const result = truth * Math.exp(relative * student(random, degreesOfFreedom));
        const passes = verdict(result, limit, { rule, expandedUncertainty: Math.log(expanded) * result }) === "pass";
        if (passes && truth > limit) wrongPass += 1;
        if (!passes && truth <= limit) wrongFail += 1;
        if (Math.abs(result / 0.62 - 1) > 0.01) continue;
        near += 1;
        if (truth <= limit) nearAndMet += 1;
      }
      const prior = { mean, deviation };
      const { withPrior } = decisionRisk(0.62, relative * 0.62, limit, { rule, degreesOfFreedom, prior });
      const { consumer, producer } = withPrior!.globalRisks;
      // Four standard deviations of a share of so many houses.
      const within = (share: number, of: number, p: number) =>
        expect(Math.abs(share - p), `${share} against ${p}`).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / of));
      within(wrongPass / houses, houses, consumer);
      within(wrongFail / houses, houses, producer);
      within(nearAndMet / near, near, withPrior!.conformance.met);
    },
  );
});
