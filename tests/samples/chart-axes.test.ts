import { expect, it } from "vitest";
import { partsOf } from "./parts";
import { stored } from "./workbook";

const parts = partsOf(stored);

it("draws the graph on log–log axes, on its own sheet, on the cover and in the report, points without a line between them", () => {
  const charts = [...parts].filter(([name]) => /^xl\/charts\/chart\d+\.xml$/.test(name)).map(([, xml]) => xml);
  expect(charts).toHaveLength(3);
  for (const xml of charts) {
    expect(xml.match(/<c:logBase val="10"\/>/g)).toHaveLength(1);
    const named = (title: string) => xml.split("<c:ser>").find((one) => one.includes(`<c:v>${title}</c:v>`)) ?? "";
    for (const direction of ["Depressurization", "Pressurization"]) {
      expect(named(direction)).toContain("<a:ln><a:noFill/></a:ln>");
      expect(named("fitted line")).not.toContain("<a:noFill/>");
      expect(named("fitted line")).toContain("'Air leakage graph'!");
    }
    expect(named("at 50 Pa")).toContain("prstDash");
  }
});
