export type Pending<T> = { readonly promise: Promise<T>; readonly resolve: (value: T) => void };

/** A promise that is resolved from elsewhere. `Promise.withResolvers` is newer than some phones of a crew. */
export function pending<T>(): Pending<T> {
  let resolve: (value: T) => void = () => undefined;
  const promise = new Promise<T>((settle) => {
    resolve = settle;
  });
  return { promise, resolve };
}
