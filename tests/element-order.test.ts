import { describe, expect, it } from "vitest";
import { orderFaults, publishedOrder, type ElementOrder } from "./element-order";

const order: ElementOrder = {
  namespaces: { "": "urn:sheet", d: "urn:drawing" },
  children: {
    sheet: "head? row* (d:bar | d:line)+ foot",
    row: "c*",
    "d:bar": "d:p",
    "d:line/d:p": "d:q?",
    "foot[wide]": "c",
  },
  leaves: "head c d:p d:q foot",
};
const faults = (content: string) =>
  orderFaults(
    `<sheet xmlns="urn:sheet" xmlns:z="urn:drawing" xmlns:i="http://www.w3.org/2001/XMLSchema-instance">${content}</sheet>`,
    order,
  );

describe("the order of elements", () => {
  it.each([
    "<head/><row/><row><c/><c/></row><z:bar><z:p/></z:bar><foot/>",
    "<z:line/><z:bar><z:p/></z:bar><foot i:type='wide'><c/></foot>",
  ])("is kept in %s", (content) => {
    // d:line has only a rule for its child.
    expect(faults(content).filter((fault) => !fault.includes("<d:line>"))).toEqual([]);
  });

  it.each([
    ["out of order", "<row/><head/><z:bar><z:p/></z:bar><foot/>", "<sheet> holds"],
    ["too often", "<head/><head/><z:bar><z:p/></z:bar><foot/>", "<sheet> holds"],
    ["missing", "<row/><z:bar><z:p/></z:bar>", "<sheet> holds"],
    ["in a leaf", "<head><c/></head><z:bar><z:p/></z:bar><foot/>", '<head> holds "c", not ""'],
    ["of another namespace", "<row/><bar><p/></bar><foot/>", "there is no rule for <bar>"],
    ["unknown beside one whose name begins alike", "<row/><z:barx/><foot/>", "there is no rule for <d:barx>"],
    ["of another type", "<z:bar><z:p/></z:bar><foot i:type='tall'/>", "there is no rule for <foot>"],
    ["under another parent", "<z:bar><z:p><z:q/></z:p></z:bar><foot/>", '<d:p> holds "d:q", not ""'],
  ])("is broken by an element %s", (_, content, fault) => {
    expect(faults(content).join("\n")).toContain(fault);
  });

  it("is that of ECMA-376 for a sheet: columns come before the cells", () => {
    const sheet = (content: string) =>
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${content}</worksheet>`;
    const published = publishedOrder("ecma-376");
    expect(orderFaults(sheet("<cols><col/></cols><sheetData><row><c/></row></sheetData>"), published)).toEqual([]);
    expect(orderFaults(sheet("<sheetData/><cols><col/></cols>"), published)).toHaveLength(1);
  });

  it.each(["ecma-376", "office-manifest"])("has in %s a prefix for every name, and no name twice", (source) => {
    const { namespaces, children, leaves } = publishedOrder(source);
    const names = [...Object.keys(children).map((key) => key.split("/").at(-1) ?? ""), ...leaves.split(" ")];
    for (const name of names) expect(Object.keys(namespaces)).toContain(name.includes(":") ? name.split(":")[0] : "");
    for (const leaf of leaves.split(" ")) expect(children).not.toHaveProperty([leaf]);
  });
});
