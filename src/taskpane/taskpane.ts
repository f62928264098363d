import { wireCopy } from "./copy";
import { type OfficeLike, reportHost } from "./host";
import { wireLinks } from "./links";
import { wireSearch } from "./search";

wireSearch(document);
wireCopy(document);
wireLinks(window);

const office = (globalThis as { Office?: OfficeLike }).Office;
const line = document.querySelector<HTMLElement>("#host");
void reportHost(office, line?.dataset["runtime"] ?? "").then(({ state, sentence }) => {
  if (!line) return;
  line.dataset["state"] = state;
  line.textContent = sentence;
});
