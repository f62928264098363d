/** The part of Office's interface that is asked; `context` is absent until Office is ready. */
export interface AskedOffice {
  readonly context?: {
    readonly requirements?: { readonly isSetSupported: (name: string, version: string) => boolean };
  };
}

/**
 * Whether the host takes a number with properties as the result of a function; it does from CustomFunctionsRuntime 1.4 on. The host is asked once. Where
 * there is no Office to ask (Node, the evaluator), it does.
 */
export function cardSupport(office: () => AskedOffice | undefined): () => boolean {
  let answer: boolean | undefined;
  return () => (answer ??= office()?.context?.requirements?.isSetSupported("CustomFunctionsRuntime", "1.4")) ?? true;
}
