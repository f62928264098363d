import { at, sum, type Exact } from "../../high-precision/decimal";
import { computeBudget, rowsOfExponent, rowsOfMean, type Budget, type Direction } from "./budget";
import { combine, roundedFreedom } from "./combination";
import { residuals } from "./fits";
import type { BudgetInputs } from "./inputs";
import { rounded } from "./rounded";
import { abscissa } from "./whole-test";

/** An entry of the group "budgets", from its own inputs. */
export function budgetEntry({ inputs }: { readonly inputs: BudgetInputs }) {
  const budget = computeBudget(inputs);
  const rows = rowsOfMean(budget);
  const combined = combine(rows);
  const mean = sum(budget.directions.map(({ n50 }) => n50)).dividedBy(budget.directions.length);
  const expanded = combined.t.times(combined.u);
  return {
    inputs,
    expected: {
      n50: rounded(mean),
      relative_u: rounded(combined.u),
      effective_dof: roundedFreedom(combined.effective),
      t: rounded(combined.t),
      U: rounded(mean.times(expanded)),
      lower: rounded(mean.times(expanded.negated().exp())),
      upper: rounded(mean.times(expanded.exp())),
      rows: rows.map(({ source, u, sensitivity, dof }, i) => ({
        source,
        u: rounded(u),
        sensitivity: rounded(sensitivity),
        dof: roundedFreedom(dof),
        share: rounded(at(combined.shares, i)),
      })),
      random: budget.directions.map(writeRandom),
      n: budget.directions.map((direction) => writeExponent(budget, direction)),
      bend: budget.directions.map(({ bend }) => ({ ...writeFlows(bend), n: 0 })),
      scatter: inputs.technique === "ordinary" ? budget.directions.map(writeScatter) : null,
    },
  };
}

function writeRandom({ random, read }: Direction) {
  const { noise, chi2, kappa2, dof, ofExponent } = random;
  return {
    pressure_uncertainty: rounded(noise.ofPressure),
    flow_uncertainty: rounded(noise.ofFlow),
    chi2: rounded(chi2),
    kappa2: rounded(kappa2),
    dof,
    u: { ...writeFlows((pressure) => random.ofFlow(abscissa(read, pressure))), n: rounded(ofExponent) },
  };
}

/** One figure for each flow that the vectors ask for; C at reference conditions is the flow at 1 Pa. */
function writeFlows(of: (pressure: number) => Exact) {
  return { ln_q50: rounded(of(50)), ln_q10: rounded(of(10)), ln_q4: rounded(of(4)), ln_C_L: rounded(of(1)) };
}

function writeExponent(budget: Budget, direction: Direction) {
  const combined = combine(rowsOfExponent(budget, direction));
  return {
    n: rounded(direction.read.n),
    u: rounded(combined.u),
    effective_dof: roundedFreedom(combined.effective),
    t: rounded(combined.t),
    U: rounded(combined.t.times(combined.u)),
  };
}

/** What the ordinary line's own limits hold: the scatter pooled over ln q, s² = Σr²/(N − 2). */
function writeScatter({ points, read, random }: Direction) {
  const squares = (values: readonly Exact[]) => sum(values.map((value) => value.pow(2)));
  const s = squares(residuals(points, read))
    .dividedBy(points.x.length - 2)
    .sqrt();
  return {
    s: rounded(s),
    u_ln_q50: rounded(s.times(squares(random.flowToFlows(abscissa(read, 50))).sqrt())),
    u_n: rounded(s.times(squares(random.exponentToFlows).sqrt())),
  };
}
