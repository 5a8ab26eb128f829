// A table that scrolls in its own frame.
import { h } from 'preact';
import type { ComponentChildren } from 'preact';

export function Table({ label, columns, children }: { label: string; columns: string[]; children: ComponentChildren }) {
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={label}>
      <table>
        <thead>
          <tr>
            {columns.map((c, i) => (
              <th key={i} scope="col">
                {c}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
