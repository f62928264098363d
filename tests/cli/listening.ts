import type { Output } from "../../src/cli/shared/output";

/** An output that keeps what a command prints and what it complains of. */
export function listening(): { output: Output; heard: () => { out: string; err: string } } {
  let [out, err] = ["", ""];
  return {
    output: {
      print: (text) => (out += `${text}\n`),
      complain: (text) => (err += `${text}\n`),
    },
    heard: () => ({ out, err }),
  };
}
