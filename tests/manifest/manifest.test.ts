import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { XmlDocument, type XmlElement } from "libxml2-wasm";
import { afterAll, describe, expect, it } from "vitest";
import { readAddress } from "../../src/cli/build/address";
import { readExcel } from "../../src/cli/build/excel";
import { fillManifest } from "../../src/cli/build/manifest";
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

  it("names icons of the sizes that Office asks for, and the files have them", () => {
    for (const icon of elements("//v:Icon")) {
      const sizes = (icon.find("bt:Image/@size", namespaces) as XmlElement[]).map((size) => size.content);
      expect(sizes).toEqual(["16", "32", "80"]);
    }
    expect(texts("//o:IconUrl/@DefaultValue")).toEqual([`${base}/assets/icon-32.png`]);
    expect(texts("//o:HighResolutionIconUrl/@DefaultValue")).toEqual([`${base}/assets/icon-64.png`]);
    for (const size of [16, 32, 64, 80]) {
      const png = readFileSync(`src/taskpane/icons/icon-${size}.png`);
      // PNG, 11.2.2: width and height stand at bytes 16 and 20 of the file.
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
    }
  });

  it("points every address at one place over https, and the AppDomain at its origin without a slash", () => {
    const addresses = texts("//@DefaultValue").filter((value) => value.includes("://"));
    expect(addresses).toHaveLength(10);
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

describe("a manifest for a version", { timeout: slow }, () => {
  it.each(["0.9.0", "1.0", "1.0.0-beta"])("is refused for %s", (bad) => {
    expect(() => fillManifest(committed, address, bad, readExcel("365"))).toThrow("package.json");
  });
});

const checker = schemaTool("check-manifest");
if (checker) {
  it("the manifest has no fault by Microsoft's published schemas", () => {
    const run = spawnSync(checker, ["manifest.xml"], { encoding: "utf8" });
    expect(run.stderr).toContain("validates");
    expect(run.status).toBe(0);
  });
}
