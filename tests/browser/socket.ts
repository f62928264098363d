import { randomBytes } from "node:crypto";
import { request } from "node:http";
import type { Duplex } from "node:stream";

/** A WebSocket of texts. Node has one of its own only from version 22 on. */
export interface Socket {
  send(text: string): void;
  listen(hear: (text: string) => void): void;
  close(): void;
}

/** Opens a socket by RFC 6455: an HTTP request, then frames. */
export function openSocket(address: string): Promise<Socket> {
  const headers = {
    Connection: "Upgrade",
    Upgrade: "websocket",
    "Sec-WebSocket-Version": "13",
    "Sec-WebSocket-Key": randomBytes(16).toString("base64"),
  };
  return new Promise((resolve, reject) => {
    request(address, { headers })
      .on("upgrade", (_, stream, head) => resolve(exchangeFrames(stream, head)))
      .on("response", ({ statusCode }) => reject(new Error(`${address} answers ${statusCode}`)))
      .on("error", reject)
      .end();
  });
}

function exchangeFrames(stream: Duplex, head: Buffer): Socket {
  let rest = head;
  let text: Buffer[] = [];
  let hear: (text: string) => void = () => {};
  const read = (data: Buffer): void => {
    rest = Buffer.concat([rest, data]);
    for (let frame = readFrame(rest); frame; frame = readFrame(rest)) {
      rest = rest.subarray(frame.length);
      // Continuation and text; a server's ping and close need no answer here.
      if (frame.kind > 1) continue;
      text.push(frame.content);
      if (!frame.isLast) continue;
      hear(Buffer.concat(text).toString());
      text = [];
    }
  };
  stream.on("data", read);
  return {
    send: (words) => void stream.write(writeFrame(Buffer.from(words))),
    listen: (listener) => {
      hear = listener;
      read(Buffer.alloc(0));
    },
    close: () => void stream.destroy(),
  };
}

function readFrame(data: Buffer): { kind: number; isLast: boolean; content: Buffer; length: number } | undefined {
  if (data.length < 2) return undefined;
  const short = data.readUInt8(1) & 127;
  const start = { 126: 4, 127: 10 }[short] ?? 2;
  if (data.length < start) return undefined;
  const size = start === 2 ? short : start === 4 ? data.readUInt16BE(2) : Number(data.readBigUInt64BE(2));
  if (data.length < start + size) return undefined;
  const first = data.readUInt8(0);
  return {
    kind: first & 15,
    isLast: (first & 128) !== 0,
    content: data.subarray(start, start + size),
    length: start + size,
  };
}

/** What a client sends is masked. */
function writeFrame(content: Buffer): Buffer {
  const size = content.length;
  const head = Buffer.alloc(size < 126 ? 6 : size < 65_536 ? 8 : 14);
  head.writeUInt8(129, 0);
  head.writeUInt8(128 | (size < 126 ? size : size < 65_536 ? 126 : 127), 1);
  if (head.length === 8) head.writeUInt16BE(size, 2);
  if (head.length === 14) head.writeBigUInt64BE(BigInt(size), 2);
  const mask = randomBytes(4);
  mask.copy(head, head.length - 4);
  return Buffer.concat([head, content.map((byte, at) => byte ^ mask.readUInt8(at % 4))]);
}
