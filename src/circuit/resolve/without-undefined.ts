type Keys<T, Wanted extends boolean> = {
  [K in keyof T]-?: undefined extends T[K] ? (Wanted extends true ? K : never) : Wanted extends true ? never : K;
}[keyof T];

/** The same object type with every field that may be undefined made optional. */
export type WithoutUndefined<T> = { [K in Keys<T, false>]: T[K] } & { [K in Keys<T, true>]?: Exclude<T[K], undefined> };

/** A copy without the fields that are undefined: 'not stated' is a field that is not there. */
export function withoutUndefined<T extends object>(object: T): WithoutUndefined<T> {
  const stated: Partial<T> = {};
  for (const key in object) {
    if (object[key] !== undefined) stated[key] = object[key];
  }
  return stated as WithoutUndefined<T>;
}
