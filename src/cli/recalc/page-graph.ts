import {
  graphDataOf,
  groupsOf,
  leakageGraph,
  limitsOf,
  mostLines,
  tag,
  testsInBook,
  type AddInCall,
  type Book,
  type PagePart,
} from "../../workbook/index";

/** A page shows the graphs of a house; where there are more tests than that, a person draws the ones to look at. */
const mostGraphs = 12;

/** The air leakage graphs of the tests that a workbook computes; undefined where there are none. */
export function graphPart(book: Book, calls: readonly AddInCall[]): PagePart | undefined {
  const { tests } = testsInBook(book, calls);
  const groups = groupsOf(tests, calls).filter(({ length }) => length <= mostLines);
  if (groups.length === 0) return undefined;
  if (groups.length > mostGraphs) {
    const told = `${groups.length} tests can be drawn, one by one: npm run graph -- FILE --cell CELL`;
    return { id: "graphs", title: "Air leakage graphs", html: tag("p", {}, told) };
  }
  const several = groups.length > 1;
  const figures = groups.map((group, index) => {
    const cells = group.map(({ cell }) => cell).join(" and ");
    const title = several ? `Air leakage graph ${index + 1}` : "Air leakage graph";
    const data = graphDataOf(group, limitsOf(group, calls), { title, subtitle: cells });
    const drawing = leakageGraph(data, `graph-${index + 1}`);
    return tag(
      "figure",
      { class: "scroll paper", tabindex: 0, role: "region", "aria-label": `${title}, drawing` },
      drawing,
    );
  });
  return { id: "graph", title: several ? "Air leakage graphs" : "Air leakage graph", html: figures.join("\n") };
}
