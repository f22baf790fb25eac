import { describe, expect, it } from 'vitest';
import { csvLine } from '../../../../cli/views/tables/csv.js';
import { REP_COLUMNS, REP_CSV_HEADER, repsCsv } from '../../../../cli/views/tables/repsCsv.js';
import { ROW_REPORT, UNUSABLE_REPORT } from '../sampleReports.js';

/** A reader of RFC 4180, section 2, written apart from the writer. */
function readCsv(text: string): string[][] {
  const records: string[][] = [];
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n)/gy;
  let record: string[] = [];
  for (const [, quoted, plain, end] of text.matchAll(field)) {
    record.push(quoted === undefined ? plain! : quoted.replaceAll('""', '"'));
    if (end === ',') continue;
    records.push(record);
    record = [];
  }
  return records;
}

describe('csvLine', () => {
  it('quotes as RFC 4180 section 2 asks (rules 5 to 7)', () => {
    expect(csvLine(['aaa', 'b,bb', 'c"cc', 'd\ndd'])).toBe('aaa,"b,bb","c""cc","d\ndd"\n');
  });

  it('leaves what is missing empty', () => {
    expect(csvLine([null, undefined, 0, false, ''])).toBe(',,0,false,\n');
  });
});

describe('repsCsv', () => {
  it('reads back as the reps of the report', () => {
    const file = '<img src=x>, "row"\n.mp4';
    const report = { ...ROW_REPORT, film: { ...ROW_REPORT.film, file } };
    const [header, ...rows] = readCsv(REP_CSV_HEADER + repsCsv(report));
    const reps = report.bouts.flatMap((bout) => bout.reps);
    expect(rows).toHaveLength(reps.length);
    const value = (row: number, name: string) => rows[row]![header!.indexOf(name)];
    reps.forEach((rep, row) => {
      expect(value(row, 'film')).toBe(file);
      expect(value(row, 'side')).toBe(rep.side);
      expect(Number(value(row, 'rep'))).toBe(rep.number);
      expect(value(row, 'partial')).toBe(String(rep.partial));
      const lowering = rep.phases.find(({ kind }) => kind === 'eccentric')!;
      expect(Number(value(row, 'eccentric_seconds'))).toBe(lowering.seconds);
      expect(Number(value(row, 'eccentric_planned_seconds'))).toBe(lowering.plannedSeconds);
      expect(value(row, 'eccentric_verdict')).toBe(lowering.verdict);
      expect(Number(value(row, 'range_degrees'))).toBe(rep.range!.degrees);
    });
  });

  it('has no column twice and no row without reps', () => {
    const names = REP_COLUMNS.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(repsCsv(UNUSABLE_REPORT)).toBe('');
  });
});
