import type { BoutReport, PhaseReport, RepReport, SetReport } from '../../../../analysis/report/setReport.js';
import { boutNames } from '../../words/boutNames.js';
import { decimal, degreesText, plusMinus } from '../../words/numbers.js';
import { PHASES_IN_PLAN_ORDER, type PhaseKind } from '../../words/phaseWords.js';
import { shareUnderLimitText } from '../../words/shareUnderLimit.js';
import { VERDICT_LEGEND, VERDICTS, type Verdict } from '../../words/verdicts.js';
import { html, type Markup, type MarkupValue } from '../layout/markup.js';
import { type PhaseNames, phaseOfRep, repRemarks } from './wordsOfSet.js';

/** The sign of a verdict, with its word where the plan was not met. */
function verdictMark(verdict: Verdict): Markup {
  const { sign, word } = VERDICTS[verdict];
  const said = verdict === 'met' ? html`<span class="unseen">${word}</span>` : html` ${word}`;
  return html`<span class="verdict ${verdict}"><span aria-hidden="true">${sign}</span>${said}</span>`;
}

function phaseCell(phase: PhaseReport | null): Markup {
  if (phase === null) return html`<td>–</td>`;
  const value = html`${decimal(phase.seconds, 1)} <span class="uncertainty">${plusMinus(phase.uncertaintySeconds, 1)}</span>`;
  return html`<td>${value}${phase.verdict === null ? null : html` ${verdictMark(phase.verdict)}`}</td>`;
}

function rangeCells(rep: RepReport): Markup {
  const { range } = rep;
  if (range === null) return html`<td colspan="2">cannot tell</td>`;
  return html`<td>${degreesText(range.degrees)} <span class="uncertainty">${plusMinus(range.uncertaintyDegrees, 0)}</span></td>
<td>${range.ofBaseline === null ? 'no baseline' : shareUnderLimitText(range.ofBaseline)}${range.shortened ? html` <span class="verdict short"><span aria-hidden="true">${VERDICTS.short.sign}</span> shorter</span>` : null}</td>`;
}

function plannedText(planned: PhaseReport['plannedSeconds']): string {
  if (planned === null) return '–';
  return planned === 'X' ? 'explosive' : decimal(planned, Number.isInteger(planned) ? 0 : 1);
}

function plannedRow(
  label: string,
  planned: (kind: PhaseKind) => PhaseReport['plannedSeconds'],
  kinds: readonly PhaseKind[],
): Markup {
  return html`<tr class="plan"><th scope="row">${label}</th>${kinds.map((kind) => html`<td>${plannedText(planned(kind))}</td>`)}<td>–</td><td>–</td><td></td></tr>`;
}

function planRows(report: SetReport, kinds: readonly PhaseKind[]): MarkupValue {
  const stages = report.plan?.stages ?? [];
  return stages.map((stage, index) => {
    const { tempo } = stage;
    if (tempo === null) return null;
    const planned: Record<PhaseKind, PhaseReport['plannedSeconds']> = {
      eccentric: tempo.eccentric,
      'stretched-hold': tempo.stretchedHold,
      concentric: tempo.concentric,
      'contracted-hold': tempo.contractedHold,
    };
    return plannedRow(stages.length === 1 ? 'Plan' : `Plan ${index + 1}`, (kind) => planned[kind], kinds);
  });
}

/** Phases worth a column: any rep spent time in them, or the plan prescribes them. */
export function shownPhaseKinds(bout: BoutReport): readonly PhaseKind[] {
  return PHASES_IN_PLAN_ORDER.filter((kind) =>
    bout.reps.some((rep) =>
      rep.phases.some(
        (phase) => phase.kind === kind && (phase.seconds > 0.05 || (phase.plannedSeconds ?? 0) !== 0),
      ),
    ),
  );
}

/** Reps of one bout, a row each; the number of the rep jumps to it in the film. */
function boutTable(report: SetReport, bout: BoutReport, name: string, words: PhaseNames): Markup {
  const kinds = shownPhaseKinds(bout);
  const multiStage = (report.plan?.stages.length ?? 0) > 1;
  const caption = report.bouts.length === 1 ? 'Every rep' : name;
  return html`<div class="scroll" role="region" aria-label="Reps: ${caption}" tabindex="0"><table class="reps">
<caption>${caption}</caption>
<thead><tr><th scope="col">Rep</th>${kinds.map((kind) => html`<th scope="col">${words[kind]}, s</th>`)}<th scope="col">Range</th><th scope="col">Of the first reps</th><th scope="col">Remarks</th></tr></thead>
<tbody>${planRows(report, kinds)}
${bout.reps.map(
  (
    rep,
  ) => html`<tr data-rep-from="${rep.startSeconds.toFixed(3)}" data-rep-to="${rep.endSeconds.toFixed(3)}"><th scope="row"><button type="button" class="jump" data-seconds="${rep.startSeconds.toFixed(3)}" aria-label="Show rep ${rep.number} in the film">${rep.number}</button></th>
${kinds.map((kind) => phaseCell(phaseOfRep(rep, kind)))}${rangeCells(rep)}<td class="words">${[...(multiStage && rep.stage !== null ? [`stage ${rep.stage}`] : []), ...repRemarks(rep)].join(', ')}</td></tr>\n`,
)}</tbody></table></div>`;
}

export function repsSection(report: SetReport, words: PhaseNames): Markup {
  const names = boutNames(report);
  return html`<section aria-labelledby="reps-title"><h2 id="reps-title">Rep by rep</h2>
<div class="tables">${report.bouts.map((bout, index) => boutTable(report, bout, names[index]!, words))}</div>
<p class="key">± is half of a 95 % interval. ${VERDICT_LEGEND} No mark: nothing was prescribed.</p>
</section>`;
}
