/** A check for each field that a value of this shape has. */
export type Checks<Shape> = { readonly [Field in keyof Shape]-?: (value: unknown) => boolean };

/**
 * Whether a value read from one of the program's own files has exactly these fields, each as its check wants it. A
 * schema library says better what is wrong, but takes longer to load than a kept measurement takes to read.
 */
export function hasShape<Shape extends object>(value: unknown, checks: Checks<Shape>): value is Shape {
  if (typeof value !== 'object' || value === null) return false;
  const fields = value as Readonly<Record<string, unknown>>;
  const wanted = Object.entries<(field: unknown) => boolean>(checks);
  return (
    Object.keys(fields).every((name) => Object.hasOwn(checks, name)) &&
    wanted.every(([name, check]) => check(fields[name]))
  );
}

export const isText = (value: unknown): boolean => typeof value === 'string';
export const isFlag = (value: unknown): boolean => typeof value === 'boolean';
export const isNumber = (value: unknown): boolean => Number.isFinite(value);
export const isFromZero = (value: unknown): boolean => isNumber(value) && Number(value) >= 0;
export const isPositive = (value: unknown): boolean => isNumber(value) && Number(value) > 0;
export const isCount = (value: unknown): boolean => Number.isSafeInteger(value) && Number(value) >= 0;
export const oneOf =
  (...values: readonly unknown[]) =>
  (value: unknown): boolean =>
    values.includes(value);
export const orNull =
  (check: (value: unknown) => boolean) =>
  (value: unknown): boolean =>
    value === null || check(value);
