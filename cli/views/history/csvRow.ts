/** One row of comma-separated values by RFC 4180, without the line end. Empty cells for null. */
export function csvRow(values: readonly (string | number | boolean | null | undefined)[]): string {
  return values.map((value) => cell(value ?? '')).join(',');
}

function cell(value: string | number | boolean): string {
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
