// The server's drawing enters the page as elements and attributes that a drawing needs, and nothing else: no script, style or address.
const NS = 'http://www.w3.org/2000/svg';
const ELEMENTS = new Set([
  'svg',
  'g',
  'path',
  'line',
  'circle',
  'ellipse',
  'rect',
  'polyline',
  'polygon',
  'text',
  'tspan',
  'defs',
  'clipPath',
]);
const ATTRIBUTES = new Set([
  'id',
  'd',
  'x',
  'y',
  'x1',
  'y1',
  'x2',
  'y2',
  'cx',
  'cy',
  'r',
  'rx',
  'ry',
  'width',
  'height',
  'points',
  'viewBox',
  'transform',
  'fill',
  'fill-rule',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-dashoffset',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-miterlimit',
  'stroke-opacity',
  'opacity',
  'clip-rule',
  'text-anchor',
  'font-size',
  'font-weight',
  'letter-spacing',
  'vector-effect',
]);

/** Reads an SVG; null where it is none. Style attributes go first: the page's policy would refuse each of them with a complaint. */
export function parse(text: string): Element | null {
  const root = new DOMParser().parseFromString(text.replace(/\sstyle="[^"]*"/g, ''), 'image/svg+xml').documentElement;
  return root.localName === 'svg' && root.namespaceURI === NS ? root : null;
}

/** Copies a foreign element with what is known of it. */
export function adopt(e: Element, ids = true): SVGElement | null {
  if (e.namespaceURI !== NS || !ELEMENTS.has(e.localName)) return null;
  const copy = document.createElementNS(NS, e.localName);
  for (const a of Array.from(e.attributes)) {
    if (a.name === 'clip-path' && /^url\(#[\w-]+\)$/.test(a.value)) copy.setAttribute(a.name, a.value);
    else if (ATTRIBUTES.has(a.name) && (ids || a.name !== 'id') && !/url\(/i.test(a.value)) copy.setAttribute(a.name, a.value);
  }
  for (const n of Array.from(e.childNodes)) {
    if (n.nodeType === Node.TEXT_NODE) copy.append(document.createTextNode(n.nodeValue || ''));
    else if (n.nodeType === Node.ELEMENT_NODE) {
      const child = adopt(n as Element, ids);
      if (child) copy.append(child);
    }
  }
  return copy;
}

// What each group of the standing drawing was made from, so that only groups that changed are made anew.
const sources = new WeakMap<Element, string>();

/** Puts an SVG's content into an element of the page, keeping the groups that are as before. */
export function draw(into: SVGSVGElement, text: string): void {
  const root = parse(text);
  if (!root) return;
  for (const name of ['viewBox', 'width', 'height']) {
    const v = root.getAttribute(name);
    if (v && into.getAttribute(name) !== v) into.setAttribute(name, v);
  }
  const kept = new Map<string, Element>();
  for (const e of Array.from(into.children)) kept.set(sources.get(e) || '', e);
  const next: Element[] = [];
  for (const e of Array.from(root.children)) {
    const source = e.outerHTML,
      old = kept.get(source);
    kept.delete(source);
    const made = old || adopt(e);
    if (!made) continue;
    sources.set(made, source);
    next.push(made);
  }
  into.replaceChildren(...next);
}
