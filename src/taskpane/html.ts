/** Text as HTML shows it, no sign of it taken for HTML. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
