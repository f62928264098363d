import { wireCopy } from "./copy";
import { type OfficeLike, reportHost } from "./host";
import { wireLinks } from "./links";
import { wireSearch } from "./search";

wireSearch(document);
wireCopy(document);
wireLinks(window);

const office = (globalThis as { Office?: OfficeLike }).Office;
void reportHost(office).then(({ state, sentence }) => {
  const line = document.querySelector<HTMLElement>("#host");
  if (!line) return;
  line.dataset["state"] = state;
  line.textContent = sentence;
});
