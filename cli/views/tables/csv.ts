export type CsvValue = string | number | boolean | null | undefined;

/**
 * One record as RFC 4180 has it: values with commas, quotes or line breaks in double quotes, quotes doubled, a line
 * feed at the end. Missing values are empty; truth values are `true` and `false`.
 */
export function csvLine(values: readonly CsvValue[]): string {
  return `${values.map(csvField).join(',')}\n`;
}

function csvField(value: CsvValue): string {
  const text = value === null || value === undefined ? '' : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
