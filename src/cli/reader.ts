import { spawn } from "node:child_process";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const openers: Readonly<Partial<Record<NodeJS.Platform, string>>> = { win32: "explorer", darwin: "open" };

/** Prints the address of the review page that was just built, and opens it where the system has a program for that. */
const address = pathToFileURL(join(import.meta.dirname, "../../dist/reader.html")).href;
console.log(address);
const opener = spawn(openers[process.platform] ?? "xdg-open", [address], { stdio: "ignore", detached: true });
// Without such a program, as on a server, the address is enough.
opener.on("error", () => undefined);
opener.unref();
