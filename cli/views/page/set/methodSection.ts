import { CAUTIONS, STILLNESS_IN_WORDS } from '../../../../analysis/report/cautions.js';
import type { Finding, SetReport } from '../../../../analysis/report/setReport.js';
import { percentText } from '../../words/numbers.js';
import { html, type Markup } from '../layout/markup.js';

const LEVELS: Readonly<Record<Finding['level'], string>> = {
  note: 'Note',
  warning: 'Warning',
  problem: 'Problem',
};

/** What the film could not show well, and how to film better. */
export function findingsSection(report: SetReport): Markup {
  const { findings } = report.quality;
  return html`<section aria-labelledby="findings-title"><h2 id="findings-title">About the film</h2>
${
  findings.length === 0
    ? html`<p>Nothing about the film stood in the way of measuring.</p>`
    : html`<ul class="findings">${findings.map(
        (finding) =>
          html`<li class="${finding.level}"><strong>${LEVELS[finding.level]}</strong>${finding.message}${finding.remedy === null ? null : html`<p class="remedy">Next time: ${finding.remedy}</p>`}</li>`,
      )}</ul>`
}</section>`;
}

/** How the numbers were made, and the cautions that go with them. */
export function methodSection(report: SetReport): Markup {
  const { film, pose, method } = report;
  const frames = `${film.framesAnalyzed.toLocaleString('en')} of ${film.framesInFilm.toLocaleString('en')} frames were looked at, at their own times`;
  const slow =
    film.slowMotionFactor === 1
      ? ''
      : ` The film is stored ${film.slowMotionFactor} times too slow; all times here are real time.`;
  return html`<section aria-labelledby="method-title"><h2 id="method-title">How the numbers were made</h2>
<div class="method"><div>
<p><strong>When a phase begins and ends.</strong> ${method?.stillness ?? STILLNESS_IN_WORDS}</p>
<p><strong>What ± means.</strong> Half of a 95 % interval, carried from the noise of the body points to seconds and degrees. A verdict is given only where the whole interval lies on one side of the limit.</p>
</div><div>
<p><strong>What was measured.</strong> ${report.exercise.drivingAngle.replaceAll('-', ' ')} by the neutral-zero method: 0° is the anatomical position. Body points by ${pose.model} (${pose.quality}; mean confidence ${percentText(pose.meanConfidence)}). ${frames}.${slow}</p>
<p><strong>Program.</strong> tempofilm${method === undefined ? '' : ` ${method.programVersion}`}. Everything was worked out on the machine that made this page.</p>
</div></div>
<h2>Take care</h2>
<ul>${(method?.cautions ?? CAUTIONS).map((caution) => html`<li>${caution}</li>`)}</ul>
</section>`;
}
