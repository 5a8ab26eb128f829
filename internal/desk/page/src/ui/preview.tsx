// What a way out of a clash would give, drawn dashed over the last plan that holds.
import { h } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Sheet } from '../calls';
import { state } from '../store';
import { adopt, parse } from '../svg';

const SHOWN = ['guide-outline', 'guide-roof', 'guide-belt', 'guide-sill', 'guide-pillar', 'guide-wheels'];

export function Preview({ sheet }: { sheet: Sheet }) {
  const p = state.preview,
    ref = useRef<SVGGElement>(null);
  useLayoutEffect(() => {
    const root = p && parse(p.svg);
    ref.current?.replaceChildren(
      ...(root
        ? SHOWN.map(id => root.querySelector(`[id="${id}"]`))
            .map(e => e && adopt(e, false))
            .filter((e): e is SVGElement => !!e)
        : []),
    );
  }, [p]);
  const dx = p?.map && sheet.map ? sheet.map.x - p.map.x : 0,
    dy = p?.map && sheet.map ? sheet.map.y - p.map.y : 0;
  return <g class="preview" ref={ref} transform={`translate(${dx} ${dy})`} />;
}
