import { join } from "node:path";
import type { Browser, Frame, Page } from "playwright-core";
import { findOfficeFile, watch } from "./open-pane";

/** What the programs tell office.js of themselves, and the script that it loads for them. */
export const hosts = {
  web: { info: "Excel$Web$16.00$en-US$$$$0", script: "excel-web-16.00.js" },
  Windows: { info: "Excel|Win32|16.01|en-US", script: "excel-win32-16.01.js" },
  Mac: { info: "Excel|Mac|16.00|en-US", script: "excel-mac-16.00.js" },
} as const;

export type HostName = keyof typeof hosts;

interface Given {
  readonly host: HostName;
  /** The workbook, as base64. */
  readonly file: string;
  /** Refuses housekeeping too, as Excel does while a cell is being edited. */
  readonly isBusy: boolean;
}

/**
 * Stands in for the Excel around the pane, as far as Microsoft's scripts ask it: who it is, what it supports, and for the file. It knows no cells: whatever
 * asks for them is refused, as Excel refuses while a dialog is open. It runs in the page, so it uses nothing from outside itself.
 */
function actAsExcel({ host, file, isBusy }: Given): void {
  const bytes = Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0));
  const methods = { register: 1, copy: 77, slice: 80, release: 81, cells: 93 } as const;
  const supported = {
    ...{ ExcelApi: "1.19", SharedRuntime: "1.2", CustomFunctionsRuntime: "1.4", KeyboardShortcuts: "1.1" },
    ...{ CompressedFile: "1.1", File: "1.1", RibbonApi: "1.2" },
  };
  const matrix = JSON.stringify(supported);
  // Office reads the licence from it, as XML.
  const token = encodeURIComponent('<r><t aid="WA0" cid="0" /></r>');
  const address = "https://files.example/Ash%20Lodge.xlsx";

  const housekeeping = ["Trace", "SendTelemetryEvent", "Register"];
  /** Excel's answer to a request for objects: housekeeping succeeds, cells are refused. */
  const answerRequest = (request: readonly unknown[]): unknown[] => {
    const body = String(request.find((part) => typeof part === "string" && part.startsWith("{")));
    // Microsoft's own script leaves a refusal of the first one uncaught.
    const granted = isBusy ? ["NotifyActionHandlerReady"] : ["NotifyActionHandlerReady", ...housekeeping];
    const isHousekeeping = granted.some((name) => body.includes(`"Name":"${name}`));
    const refusal = { Error: { Code: "AccessDenied", Message: "The workbook is not at hand.", Location: "" } };
    return [isHousekeeping ? 200 : 403, [], JSON.stringify(isHousekeeping ? { Results: [] } : refusal)];
  };
  /** The answer to a call by its number: the parts of the answer, or none where the call is refused. */
  const answer = (id: number, given: readonly unknown[], from: number, size: number): unknown[] | undefined => {
    const slice = [...bytes.subarray(from, from + size)];
    if (id === methods.copy) return [1, bytes.length];
    if (id === methods.slice) return [slice, slice.length];
    if (id === methods.release) return [];
    if (id === methods.cells) return answerRequest(given.flat());
    return undefined;
  };
  const refused = 5001;
  // The workbook may be written to: 0 on the desktop, 1 on the web.
  const [desktopMode, webMode] = [0, 1];

  if (host === "Windows" || host === "Mac") {
    const wrap = (parts: readonly unknown[]): object => ({ toArray: () => parts });
    const call = (id: number, given: readonly unknown[]): unknown[] => {
      const [, offset, size] = given as number[];
      const parts = answer(id, given, offset ?? 0, size ?? 0);
      return parts ? [0, ...(id === methods.cells ? [parts] : parts)] : [refused];
    };
    if (host === "Windows") {
      const facts = {
        ...{ GetAppType: 1, GetSolutionRef: "stillair", GetAppVersionMajor: 16, GetAppVersionMinor: 0 },
        ...{ GetAppUILocale: 1033, GetAppDataLocale: 1033, GetDocUrl: address, GetAppCapabilities: desktopMode },
        ...{ GetActivationMode: 0, GetControlIntegrationLevel: 1, GetSolutionToken: token, GetSupportedMatrix: matrix },
        ...{ GetHostFullVersion: "16.0.19000.20000", GetSettings: { Read: () => undefined }, GetOfficeThemeInfo: "{}" },
      };
      const context = Object.fromEntries(Object.entries(facts).map(([name, fact]) => [name, () => fact]));
      type Done = (answer: object) => void;
      const later = (done: Done, parts: readonly unknown[]): void => {
        setTimeout(() => done(wrap(parts)), 0);
      };
      const external = {
        GetContext: () => context,
        Execute: (id: number, given: unknown[], done: Done) => later(done, call(id, given)),
        RegisterEvent: (_: number, __: string, ___: unknown, done: Done) => later(done, [0]),
        UnregisterEvent: (_: number, __: string, done: Done) => later(done, [0]),
      };
      Object.defineProperty(window, "external", { value: external });
      return;
    }
    // Settings, solution, program; version in three parts and that of its interface.
    const program = [[[], []], "stillair", 1, 16, 0, 0, 0];
    // Mode, languages, bindings, address, activation, level, token, set and ids; touch, commerce, what is supported, message, version, display.
    const document = [desktopMode, 1033, 1033, 0, address, 0, 1, token, 0, "", ""];
    const facts = [...program, ...document, false, false, matrix, "", "16.100.1", 0];
    interface Message {
      readonly methodId: number;
      readonly params: { readonly id: number; readonly apiArgs: unknown[] };
      readonly callbackId: string;
    }
    const postMessage = (text: string): void => {
      const { methodId, params, callbackId } = JSON.parse(text) as Message;
      const getContext = 5;
      const payload =
        methodId === getContext ? facts : methodId === methods.register ? [call(params.id, params.apiArgs)] : [0];
      const { OSF } = globalThis as unknown as {
        OSF: { ScriptMessaging: { agaveHostCallback: (id: string, payload: unknown) => void } };
      };
      setTimeout(() => OSF.ScriptMessaging.agaveHostCallback(callbackId, payload), 0);
    };
    Object.assign(window, { webkit: { messageHandlers: { Agave: { postMessage } } } });
    return;
  }

  interface Request {
    readonly _messageType: number;
    readonly _actionName: string;
    readonly _actionType: number;
    readonly _conversationId: string;
    readonly _correlationId: number;
    readonly _data: Readonly<Record<string, unknown>> | null;
  }
  let sliceSize = 0;
  const context = {
    ...{ _id: "stillair", _appName: 16, _appVersion: 16, _appUILocale: "en-US", _dataLocale: "en-US" },
    ...{ _docUrl: address, _clientMode: webMode, _settings: [], _reason: 0, _osfControlType: 1, _eToken: token },
    ...{ _appInstanceId: "1", _requirementMatrix: matrix, _hostFullVersion: "16.0.19000.0", _appDomains: [] },
  };
  window.addEventListener("message", ({ data, source, origin }: MessageEvent<string>) => {
    const request = JSON.parse(data) as Request;
    const given = request._data ?? {};
    const respond = (payload: unknown): void => {
      const response = { ...request, _messageType: 1, _errorCode: 0, _responseType: 0, _data: payload };
      (source as Window).postMessage(JSON.stringify(response), origin);
    };
    if (request._actionName === "ContextActivationManager_getAppContextAsync") respond(context);
    else if (request._actionName === "executeMethod") {
      const { DispatchId: id } = given["DdaMethod"] as { readonly DispatchId: number };
      if (id === methods.copy) sliceSize = Number(given["1"]);
      const parts = answer(id, Object.values(given), sliceSize * Number(given["3"] ?? 0), sliceSize);
      respond({ Version: 1, Error: parts ? 0 : refused, ...(id === methods.cells ? { Data: parts } : parts) });
    } else if (request._actionType !== 0) respond({ Error: 0 });
  });
}

const webAddress = "https://excel.officeapps.live.com/x/";
const paneAddress = "https://stillair.example";

export interface PaneInExcel {
  readonly page: Page;
  /** Where the pane is: the page itself, or on the web a frame of it. */
  readonly pane: Frame;
  readonly complaints: string[];
  /** The files of Microsoft's package that were asked for. */
  readonly loaded: string[];
}

/** Opens the built pane with Microsoft's own scripts, in a stand-in for an Excel that has this workbook open. */
export async function openPaneInExcel(
  browser: Browser,
  dist: string,
  host: HostName,
  workbook: Uint8Array,
  isBusy = false,
): Promise<PaneInExcel> {
  const page = await browser.newPage({ viewport: { width: 320, height: 900 } });
  page.setDefaultTimeout(60_000);
  const complaints = await watch(page);
  const loaded: string[] = [];
  const given: Given = { host, file: Buffer.from(workbook).toString("base64"), isBusy };
  const hostInfo = hosts[host].info;
  const frameName = JSON.stringify({ hostInfo, xdmInfo: `conversation|stillair|${webAddress}`, baseFrameName: "pane" });
  const name = frameName.replaceAll('"', "&quot;");
  const parent = `<!doctype html><iframe name="${name}" src="${paneAddress}/taskpane.html" width="300" height="860"></iframe>
    <script>(${actAsExcel.toString()})(${JSON.stringify(given)});</script>`;
  await page.route("**", (route) => {
    const url = route.request().url();
    const path = findOfficeFile(url);
    if (path !== undefined) loaded.push(path.split("/").at(-1) ?? "");
    if (path !== undefined) return route.fulfill({ path });
    if (url === webAddress) return route.fulfill({ contentType: "text/html", body: parent });
    const { origin, pathname } = new URL(url);
    if (origin === paneAddress) return route.fulfill({ path: join(dist, pathname) });
    complaints.push(`request: ${url}`);
    return route.abort();
  });
  if (host === "web") await page.goto(webAddress);
  else {
    await page.addInitScript(actAsExcel, given);
    await page.goto(`${paneAddress}/taskpane.html?_host_Info=${encodeURIComponent(hostInfo)}`);
  }
  const pane = page.frames().find((one) => one.url().startsWith(paneAddress));
  if (!pane) throw new Error("the pane has no frame");
  return { page, pane, complaints, loaded };
}
