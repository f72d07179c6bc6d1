/**
 * Two functions of the language that our code uses and that an older host may lack: what Google Sheets runs is not
 * published by version. Nothing is done where they are there.
 */
function at(this: ArrayLike<unknown>, index: number): unknown {
  return this[index < 0 ? this.length + index : index];
}

const hasOwn = (target: object, key: PropertyKey): boolean =>
  Object.prototype.hasOwnProperty.call(target, key);

function give(target: object, name: string, value: unknown): void {
  if (!(name in target))
    Object.defineProperty(target, name, { value, configurable: true, writable: true });
}

for (const kind of [Array, String, Float64Array, Int32Array, Uint8Array])
  give(kind.prototype as object, 'at', at);
give(Object, 'hasOwn', hasOwn);
