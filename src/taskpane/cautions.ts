import { escapeHtml } from "../workbook/html";

/** What to see to before the fan runs: the subject, and what to do about it. */
const cautions: readonly (readonly [subject: string, rest: string])[] = [
  [
    "Combustion appliances",
    " off, pilot lights too: depressurizing can pull flue gas into the house. Check them afterwards.",
  ],
  ["Fireplaces", " cold since the day before, ash removed or covered: embers can last longer than 24 hours."],
  ["Asbestos, vermiculite or lead dust", ": no test before a licensed assessment."],
  [
    "Occupants and animals",
    ": warn people, and keep all clear of the fan and its mains lead. In frost, cold air will be drawn in.",
  ],
  ["Test fog", ": tell the fire service, silence the alarms, and restore them afterwards."],
];

/** The cautions as a section of a page. */
export function writeCautions(): string {
  const items = cautions.map(([subject, rest]) => `<li><strong>${subject}</strong>${escapeHtml(rest)}</li>`);
  return `<section class="cautions" id="cautions" aria-labelledby="cautions-heading">
<h2 id="cautions-heading">Before the fan runs</h2>
<ul>
${items.join("\n")}
</ul>
<p>The results are the tester’s responsibility under local codes; this add-in replaces no licence.</p>
</section>`;
}
