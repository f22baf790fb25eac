import CliTable3 from 'cli-table3';
import type { Plan } from '../../../analysis/plan/plan.js';
import type { BoutReport, PhaseReport, RepReport } from '../../../analysis/report/setReport.js';
import { capitalized } from '../words/grammar.js';
import { decimal, degreesText, filmTimeText, plusMinus } from '../words/numbers.js';
import { PHASES_IN_PLAN_ORDER, type PhaseKind, type PhaseWords, phaseWord } from '../words/phaseWords.js';
import { plannedSecondsOf } from '../words/planInWords.js';
import { shareUnderLimitText } from '../words/shareUnderLimit.js';
import { VERDICTS } from '../words/verdicts.js';
import { FRAMELESS } from './frameless.js';
import { linesOfTable, visibleWidth } from './plainTable.js';
import type { Style } from './style.js';
import { type VerdictDetail, verdictText } from './verdict.js';

/** A way to lay the table out; tried from the most spoken to the tightest until one fits. */
interface Layout {
  readonly filmTime: boolean;
  readonly detail: VerdictDetail;
  readonly gap: number;
  readonly uncertaintyApart: boolean;
}

const LAYOUTS: readonly Layout[] = [
  { filmTime: true, detail: 'always-word', gap: 2, uncertaintyApart: true },
  { filmTime: true, detail: 'word-when-off', gap: 2, uncertaintyApart: true },
  { filmTime: false, detail: 'word-when-off', gap: 2, uncertaintyApart: true },
  { filmTime: false, detail: 'sign', gap: 2, uncertaintyApart: true },
  { filmTime: false, detail: 'sign', gap: 1, uncertaintyApart: false },
];

/** What the tables of one report share. */
interface TableContext {
  readonly plan: Plan | null;
  readonly words: PhaseWords;
  readonly style: Style;
}

/**
 * The reps of each bout as a table without frames: a row a rep, the plan above the reps of each stage. All tables
 * of a report are laid out alike, by the most spoken layout in which every one of them fits the screen.
 */
export function repTables(bouts: readonly BoutReport[], context: TableContext): readonly string[] {
  let tables: readonly Drawn[] = [];
  for (const layout of LAYOUTS) {
    tables = bouts.map((bout) => drawTable(bout, context, layout));
    if (tables.every((table) => table.width <= context.style.width)) break;
  }
  return tables.map((table) => table.text);
}

/** A hold that was neither planned nor made would be a column of nothing. */
function isWorthAColumn(kind: PhaseKind, bout: BoutReport, plan: Plan | null): boolean {
  if (kind === 'eccentric' || kind === 'concentric') return true;
  const planned = plan?.stages.some(
    ({ tempo }) => tempo !== null && Number(plannedSecondsOf(tempo, kind)) > 0,
  );
  return planned === true || bout.reps.some((rep) => (phaseOf(rep, kind)?.seconds ?? 0) > 0);
}

interface Drawn {
  readonly text: string;
  readonly width: number;
}

function drawTable(bout: BoutReport, { plan, words, style }: TableContext, layout: Layout): Drawn {
  const { colors } = style;
  const kinds = PHASES_IN_PLAN_ORDER.filter((kind) => isWorthAColumn(kind, bout, plan));
  const table = new CliTable3({ ...FRAMELESS, style: { 'padding-left': 0, 'padding-right': layout.gap } });
  const titles = ['Rep', ...kinds.map((kind) => capitalized(columnWord(kind, words))), 'Range'];
  if (layout.filmTime) titles.splice(1, 0, 'At');
  table.push(titles.map((title) => colors.bold(title)));

  let stage: number | null = null;
  for (const rep of bout.reps) {
    if (rep.stage !== null && rep.stage !== stage) {
      stage = rep.stage;
      const planned = plannedRow(plan, stage, kinds, layout);
      if (planned !== null) table.push(planned.map((cell) => (cell === '' ? '' : colors.dim(cell))));
    }
    table.push(repRow(rep, kinds, layout, style));
  }
  const lines = linesOfTable(table);
  return { text: lines.join('\n'), width: visibleWidth(lines) };
}

function plannedRow(
  plan: Plan | null,
  stage: number,
  kinds: readonly PhaseKind[],
  layout: Layout,
): string[] | null {
  const tempo = plan?.stages[stage - 1]?.tempo ?? null;
  if (tempo === null) return null;
  const cells = kinds.map((kind) => {
    const planned = plannedSecondsOf(tempo, kind);
    if (planned === null) return '·';
    if (planned === 'X') return 'fast';
    return planned === 0 ? 'none' : `${planned} s`;
  });
  return ['plan', ...(layout.filmTime ? [''] : []), ...cells, ''];
}

function repRow(rep: RepReport, kinds: readonly PhaseKind[], layout: Layout, style: Style): string[] {
  const phases = kinds.map((kind) => phaseCell(phaseOf(rep, kind), layout, style));
  return [
    repCell(rep),
    ...(layout.filmTime ? [filmTimeText(rep.startSeconds)] : []),
    ...phases,
    rangeCell(rep, layout, style),
  ];
}

function repCell(rep: RepReport): string {
  const marks = [rep.complete ? '' : 'cut', rep.partial ? 'partial' : '', rep.failed ? 'failed' : ''];
  return [String(rep.number), ...marks.filter((mark) => mark !== '')].join(' ');
}

function phaseCell(phase: PhaseReport | undefined, layout: Layout, { colors }: Style): string {
  if (phase === undefined) return '·';
  const between = layout.uncertaintyApart ? ' ' : '';
  const value =
    phase.seconds === 0
      ? 'none'
      : `${decimal(phase.seconds, 1)}${between}${colors.dim(plusMinus(phase.uncertaintySeconds, 1))}`;
  return phase.verdict === null ? value : `${value} ${verdictText(phase.verdict, layout.detail, colors)}`;
}

function rangeCell(rep: RepReport, layout: Layout, { colors }: Style): string {
  const { range } = rep;
  if (range === null) return 'not told';
  const between = layout.uncertaintyApart ? ' ' : '';
  const uncertainty = colors.dim(plusMinus(range.uncertaintyDegrees, 0));
  const value = `${degreesText(range.degrees)}${between}${uncertainty}`;
  if (!range.shortened) return value;
  return `${value} ${colors.yellow(`${VERDICTS.short.sign} ${range.ofBaseline === null ? 'less' : shareUnderLimitText(range.ofBaseline)}`)}`;
}

function phaseOf(rep: RepReport, kind: PhaseKind): PhaseReport | undefined {
  return rep.phases.find((phase) => phase.kind === kind);
}

/** Where both holds have the same word, the columns need telling apart. */
function columnWord(kind: PhaseKind, words: PhaseWords): string {
  const word = phaseWord(kind, words);
  if (words.stretchedHold !== words.contractedHold) return word;
  if (kind === 'stretched-hold') return words.eccentric === 'lowering' ? `${word} low` : `${word} long`;
  if (kind === 'contracted-hold') return words.eccentric === 'lowering' ? `${word} high` : `${word} short`;
  return word;
}
