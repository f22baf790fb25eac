import type { SetReport } from '../../../../analysis/report/setReport.js';
import { html, type Markup } from '../layout/markup.js';
import { decimal, percentText, secondsText } from '../layout/numbers.js';
import { boutNames, PHASE_KINDS, type PhaseWords } from './wordsOfSet.js';

type Stage = NonNullable<SetReport['plan']>['stages'][number];

function stageInWords(stage: Stage, words: PhaseWords): string {
  const { tempo, reps } = stage;
  const parts: string[] = [];
  if (tempo !== null) {
    const planned = [tempo.eccentric, tempo.stretchedHold, tempo.concentric, tempo.contractedHold];
    PHASE_KINDS.forEach((kind, index) => {
      const seconds = planned[index]!;
      if (seconds === null) return;
      if (seconds === 'X') parts.push(`${words[kind]} explosive`);
      else if (seconds === 0) parts.push(`no ${words[kind]}`);
      else parts.push(`${words[kind]} ${decimal(seconds, Number.isInteger(seconds) ? 0 : 1)} s`);
    });
  }
  const count =
    reps === null ? '' : reps.min === reps.max ? `${reps.min} reps` : `${reps.min} to ${reps.max} reps`;
  return [count, parts.join(', ')].filter((part) => part !== '').join(': ');
}

/** The plan in words, stage by stage; "none given" without one. */
export function planInWords(report: SetReport, words: PhaseWords): string {
  if (report.plan === null) return 'none given';
  const stages = report.plan.stages.map((stage) => stageInWords(stage, words));
  return stages.length === 0 ? 'none given' : stages.join('; then ');
}

function loadText(report: SetReport): string | null {
  const { load } = report;
  if (load === null || load === undefined) return null;
  if (load.value === null) return load.unit === 'bodyweight' ? 'bodyweight' : load.unit;
  return `${decimal(load.value, Number.isInteger(load.value) ? 0 : 1)} ${load.unit}`;
}

function factOf(name: string, value: string | null): Markup | null {
  return value === null ? null : html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
}

/** The answer first, then the few facts one looks for next. */
export function headerSection(report: SetReport, words: PhaseWords): Markup {
  const names = boutNames(report);
  const day = report.film.recordedAt?.slice(0, 10) ?? null;
  const over = [report.exercise.name, day, report.film.file].filter((part) => part !== null);
  return html`<header class="top"><p class="overline">${over.join(' · ')}</p>
<h1>${report.headline}</h1>
<dl class="facts">
${factOf('Plan', planInWords(report, words))}
${factOf('Load', loadText(report))}
${report.bouts.map((bout, index) => {
  const { summary } = bout;
  const odd = [
    summary.partialReps > 0 ? `${summary.partialReps} partial` : '',
    summary.failedReps > 0 ? `${summary.failedReps} failed` : '',
  ].filter((part) => part !== '');
  const delivered =
    summary.deliveredLoweringShare === null
      ? ''
      : `, ${percentText(summary.deliveredLoweringShare)} of the planned ${words.eccentric} time`;
  return factOf(
    names[index]!,
    `${summary.completeReps} reps${odd.length === 0 ? '' : ` (${odd.join(', ')})`} in ${secondsText(summary.timeUnderTensionSeconds, 0)}${delivered}`,
  );
})}
</dl></header>`;
}
