/** A fault in what was typed; the message is one line, and the command ends with exit code 2. */
export class BadArgument extends Error {
  constructor(message: string) {
    super(message.replace(/\s*[\r\n]+\s*/g, " "));
    this.name = "BadArgument";
  }
}
