import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { XmlDocument, type XmlElement } from "libxml2-wasm";
import { afterAll, describe, expect, it } from "vitest";
import { readAddress } from "../../src/cli/build/address";
import { readExcel } from "../../src/cli/build/excel";
import { iconNames, iconSizes } from "../../src/cli/build/icons";
import { fillManifest } from "../../src/cli/build/manifest";
import shortcuts from "../../src/taskpane/shortcuts.json";
import { orderFaults, publishedOrder } from "../element-order";
import { schemaTool } from "../schema-tools";
import { slow } from "../time-outs";

const namespaces = {
  o: "http://schemas.microsoft.com/office/appforoffice/1.1",
  v: "http://schemas.microsoft.com/office/taskpaneappversionoverrides",
  bt: "http://schemas.microsoft.com/office/officeappbasictypes/1.0",
  xsi: "http://www.w3.org/2001/XMLSchema-instance",
};

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const committed = readFileSync("manifest.xml", "utf8");
const address = readAddress("https://example.org/tools/stillair/");
const served = fillManifest(committed, address, version, readExcel("365"));
const perpetual = fillManifest(committed, address, version, readExcel("perpetual"));

const documents: XmlDocument[] = [];
afterAll(() => documents.forEach((document) => document.dispose()));

function read(text: string) {
  const document = XmlDocument.fromString(text);
  documents.push(document);
  return {
    elements: (path: string) => document.find(path, namespaces) as XmlElement[],
    texts: (path: string) => document.find(path, namespaces).map((node) => node.content),
  };
}

// Rules from Microsoft's "Office Add-ins XML manifest" reference and "Configure your add-in to use a shared runtime".
describe.each([
  ["as committed", committed, "https://localhost:3000", "https://localhost:3000", "1.4"],
  ["for an address with a path", served, "https://example.org/tools/stillair", "https://example.org", "1.4"],
  ["for an Excel bought once", perpetual, "https://example.org/tools/stillair", "https://example.org", "1.2"],
])("the manifest %s", { timeout: slow }, (_name, text, base, origin, runtime) => {
  const { elements, texts } = read(text);

  it("is a task pane add-in for workbooks that may write, with its four-part version from package.json", () => {
    expect(texts("/o:OfficeApp/@xsi:type")).toEqual(["TaskPaneApp"]);
    expect(texts("/o:OfficeApp/o:Version")).toEqual([`${version}.0`]);
    expect(texts("/o:OfficeApp/o:Hosts/o:Host/@Name")).toEqual(["Workbook"]);
    expect(texts("/o:OfficeApp/o:Permissions")).toEqual(["ReadWriteDocument"]);
    expect(texts("/o:OfficeApp/o:ProviderName")).toEqual(["Stillair"]);
  });

  it("has the version that Microsoft's validation accepts: 1.0 or higher", () => {
    expect(Number(texts("/o:OfficeApp/o:Version")[0]?.split(".")[0])).toBeGreaterThanOrEqual(1);
  });

  it("keeps its identity: another Id would be another add-in in every workbook", () => {
    expect(texts("/o:OfficeApp/o:Id")).toEqual(["9f50fb7f-e1ac-4dcf-80d5-a9d1026d5af7"]);
  });

  // Set 1.4 brings data types, 1.2 CustomFunctions.Error: Microsoft, "Custom Functions requirement sets".
  it("asks for the functions' runtime that its Excel has", () => {
    expect(texts("//o:Set[@Name='CustomFunctionsRuntime']/@MinVersion")).toEqual([runtime]);
  });

  it("asks for the shared runtime, and gives it, the page, the function file and the pane one resource", () => {
    expect(texts("//o:Requirements//o:Set/@Name")).toEqual(["SharedRuntime", "CustomFunctionsRuntime"]);
    expect(texts("//o:Set[@Name='SharedRuntime']/@MinVersion")).toEqual(["1.1"]);
    const shared = [
      "//v:Runtime/@resid",
      "//v:Page/v:SourceLocation/@resid",
      "//v:FunctionFile/@resid",
      "//v:Action/v:SourceLocation/@resid",
    ].flatMap((path) => texts(path));
    expect(shared).toEqual(["Pane.Url", "Pane.Url", "Pane.Url", "Pane.Url"]);
    expect(texts("//v:Runtime/@lifetime")).toEqual(["long"]);
    expect(elements("//v:TaskpaneId")).toEqual([]);
  });

  it("names the namespace of the functions", () => {
    expect(texts("//v:Namespace/@resid")).toEqual(["Functions.Namespace"]);
    expect(texts("//bt:String[@id='Functions.Namespace']/@DefaultValue")).toEqual(["STILLAIR"]);
  });

  it("declares every resource that it uses, once and of the right kind, and uses every one that it declares", () => {
    const declared = texts("//v:Resources//*/@id");
    const used = texts("//@resid");
    expect(new Set(declared).size).toBe(declared.length);
    expect([...new Set(used)].sort()).toEqual([...declared].sort());
    for (const id of declared) expect(id.length).toBeLessThanOrEqual(32);
    for (const id of texts("//bt:Image/@resid")) expect(elements(`//bt:Images/bt:Image[@id='${id}']`)).toHaveLength(1);
    for (const id of texts(
      "//v:SourceLocation/@resid | //v:Runtime/@resid | //v:FunctionFile/@resid | //v:LearnMoreUrl/@resid",
    ))
      expect(elements(`//bt:Urls/bt:Url[@id='${id}']`)).toHaveLength(1);
  });

  it("keeps its strings within Office's lengths", () => {
    for (const string of texts("//bt:ShortStrings/bt:String/@DefaultValue"))
      expect(string.length).toBeLessThanOrEqual(125);
    for (const string of texts("//bt:LongStrings/bt:String/@DefaultValue"))
      expect(string.length).toBeLessThanOrEqual(250);
  });

  it("names icons of every size that Office takes, and the files have them", () => {
    const icons = elements("//v:Icon");
    expect(icons).toHaveLength(6);
    for (const icon of icons) {
      const images = icon.find("bt:Image", namespaces) as XmlElement[];
      expect(images.map((image) => image.attr("size")?.content)).toEqual(iconSizes.map(String));
      for (const image of images) {
        const [size, resid] = [image.attr("size")?.content, image.attr("resid")?.content];
        const [address = ""] = texts(`//bt:Images/bt:Image[@id='${resid}']/@DefaultValue`);
        const png = readFileSync(address.replace(`${base}/assets`, "src/taskpane/icons"));
        // PNG, 11.2.2: width and height stand at bytes 16 and 20 of the file.
        expect([png.readUInt32BE(16), png.readUInt32BE(20)].map(String)).toEqual([size, size]);
      }
    }
    expect(texts("//o:IconUrl/@DefaultValue")).toEqual([`${base}/assets/icon-32.png`]);
    expect(texts("//o:HighResolutionIconUrl/@DefaultValue")).toEqual([`${base}/assets/icon-64.png`]);
  });

  it("has a button for the functions, which shows the pane, and one for each view that answers a question", () => {
    const labels = texts("//v:Group/v:Control/v:Label/@resid");
    expect(labels.map((id) => texts(`//bt:String[@id='${id}']/@DefaultValue`)[0])).toEqual([
      ...["Functions", "Trace", "Graph", "Check"],
    ]);
    expect(texts("//v:Group/v:Control/v:Action/@xsi:type")).toEqual([
      "ShowTaskpane",
      ...Array<string>(3).fill("ExecuteFunction"),
    ]);
    expect(texts("//v:Group//v:FunctionName")).toEqual(["showTrace", "showGraph", "showCheck"]);
  });

  it("puts one command into the menu of a cell, as Office allows", () => {
    expect(texts("//v:OfficeMenu/@id")).toEqual(["ContextMenuCell"]);
    expect(texts("//v:OfficeMenu/v:Control/v:Action/v:FunctionName")).toEqual(["showTrace"]);
    expect(texts("//bt:String[@id='TraceCell.Label']/@DefaultValue")).toEqual(["Trace this cell"]);
  });

  it("runs only actions that the list of shortcuts describes", () => {
    const described = shortcuts.actions.map(({ id }) => id);
    for (const name of texts("//v:FunctionName")) expect(described).toContain(name);
  });

  it("has its support and its first help on pages that load nothing of Office", () => {
    expect(texts("//o:SupportUrl/@DefaultValue")).toEqual([`${base}/support.html`]);
    expect(texts("//v:LearnMoreUrl/@resid")).toEqual(["Help.Url"]);
    expect(texts("//bt:Url[@id='Help.Url']/@DefaultValue")).toEqual([`${base}/help/index.html`]);
  });

  it("points every address at one place over https, and the AppDomain at its origin without a slash", () => {
    const addresses = texts("//@DefaultValue").filter((value) => value.includes("://"));
    expect(addresses).toHaveLength(8 + iconNames.length * iconSizes.length);
    for (const address of addresses) expect(address.startsWith(`${base}/`)).toBe(true);
    expect(texts("//o:AppDomain")).toEqual([origin]);
  });

  it("holds its elements in the order of Microsoft's published schema, which Office insists on", () => {
    expect(orderFaults(text, publishedOrder("office-manifest"))).toEqual([]);
    const swapped = text.replace(/(<DefaultLocale>.*?<\/DefaultLocale>)(\s*)(<DisplayName .*?\/>)/s, "$3$2$1");
    expect(orderFaults(swapped, publishedOrder("office-manifest"))).toHaveLength(1);
  });

  it("has ids of controls and groups that no other control shares", () => {
    const ids = texts("//v:Group/@id | //v:Control/@id");
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe("the keyboard shortcuts", () => {
  it("are named by the manifest of a build only, below its overrides: the published schemas do not know the element", () => {
    const { texts } = read(served);
    expect(texts("/o:OfficeApp/v:VersionOverrides/following-sibling::*[1]/@Url")).toEqual([
      "https://example.org/tools/stillair/shortcuts.json",
    ]);
    expect(committed).not.toContain("ExtendedOverrides");
  });

  it("are one for each action, each with a name for Excel's question which of two is meant", () => {
    expect(shortcuts.actions.map(({ id }) => id)).toEqual(["showFunctions", "showTrace", "showGraph", "showCheck"]);
    expect(shortcuts.shortcuts.map(({ action }) => action)).toEqual(shortcuts.actions.map(({ id }) => id));
    for (const { name, type } of shortcuts.actions) expect([name !== "", type]).toEqual([true, "ExecuteFunction"]);
  });

  // Microsoft, "Add custom keyboard shortcuts to your Office Add-ins": the pattern Ctrl+Shift+Alt+x, one letter, keys joined by +.
  it("keep to the pattern that Microsoft recommends, each with a letter of its own", () => {
    const letters = shortcuts.shortcuts.map(({ key }) => {
      const [, letter = ""] = /^Ctrl\+Alt\+Shift\+([A-Z])$/.exec(key.default) ?? [];
      // On a Mac, Control and Option together belong to VoiceOver.
      expect(key.mac).toBe(`Command+Alt+Shift+${letter}`);
      return letter;
    });
    expect(letters).toEqual(["F", "T", "G", "K"]);
  });
});

describe("a manifest for a version", { timeout: slow }, () => {
  it.each(["0.9.0", "1.0", "1.0.0-beta"])("is refused for %s", (bad) => {
    expect(() => fillManifest(committed, address, bad, readExcel("365"))).toThrow("package.json");
  });
});

const checker = schemaTool("check-manifest");
if (checker) {
  it.each([
    ["as committed", committed],
    ["of a build, but for its shortcuts,", served.replace(/<ExtendedOverrides .*<\/ExtendedOverrides>/, "")],
  ])("the manifest %s has no fault by Microsoft's published schemas", (_name, text) => {
    const run = spawnSync(checker, ["-"], { encoding: "utf8", input: text });
    expect(run.stderr).toContain("validates");
    expect(run.status).toBe(0);
  });
}
