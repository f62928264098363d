/** The address the add-in's files are served from. */
export interface Address {
  /** Without a trailing slash; may have a path. */
  readonly base: string;
  /** Scheme, host and port only, as needed for an AppDomain and a content policy. */
  readonly origin: string;
}

/** Reads the address the add-in will be served from; Office loads add-ins over https only. */
export function readAddress(text: string): Address {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    throw new Error(`ADDIN_URL: "${text}" is not an address; write something like https://example.org/stillair`);
  }
  if (url.protocol !== "https:") throw new Error(`ADDIN_URL: "${text}" is not https, and Office loads nothing else`);
  if (url.search || url.hash || url.username) throw new Error(`ADDIN_URL: "${text}" has more than a host and a path`);
  return { base: url.origin + url.pathname.replace(/\/+$/, ""), origin: url.origin };
}
