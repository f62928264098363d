import { createOutput, type Output } from "../../src/cli/shared/output";

/** An output that keeps what a command prints and what it complains of, as a terminal gets it. */
export function listening(): { output: Output; heard: () => { out: string; err: string } } {
  let [out, err] = ["", ""];
  const output = createOutput(
    (text) => (out += text),
    (text) => (err += text),
  );
  return { output, heard: () => ({ out, err }) };
}
