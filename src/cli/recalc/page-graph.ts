import {
  escaped,
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

/** A page shows the graphs of a house; those of hundreds of tests are drawn one by one. */
const mostGraphs = 12;

/** The air leakage graphs of the tests that a workbook computes; undefined where there are none. */
export function graphPart(book: Book, calls: readonly AddInCall[]): PagePart | undefined {
  const { tests } = testsInBook(book, calls);
  const groups = groupsOf(tests, calls).filter(({ length }) => length <= mostLines);
  if (groups.length === 0) return undefined;
  const several = groups.length > 1;
  const figures = groups.slice(0, mostGraphs).map((group, index) => {
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
  const rest = groups.length - mostGraphs;
  const more = rest > 0 ? tag("p", {}, escaped(`${rest} more are drawn by: npm run graph -- FILE --cell CELL`)) : "";
  return { id: "graph", title: several ? "Air leakage graphs" : "Air leakage graph", html: figures.join("\n") + more };
}
