// The two regions for the ear: one polite, after the last change has come to rest, and one alert for a clash.
const REST = 220; // milliseconds

let timer = 0;

/** Says something once things have come to rest; what was to be said before is dropped. */
export function say(text: string): void {
  clearTimeout(timer);
  timer = window.setTimeout(() => put('desk-says', text), REST);
}

/** Says a clash at once; '' ends it. */
export const alertOf = (text: string): void => put('desk-alert', text);

function put(id: string, text: string): void {
  const e = document.getElementById(id);
  if (!e) return;
  // A region that is given its own text again stays silent, so a repeated sentence differs by a space that nobody hears.
  e.textContent = text && e.textContent === text ? `${text}\u00a0` : text;
}
