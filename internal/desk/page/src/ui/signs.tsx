// Small signs that are drawn, not lettered.
import { h } from 'preact';

export const Pin = () => (
  <svg class="pin" viewBox="0 0 9 14" aria-hidden="true" focusable="false">
    <circle cx="4.5" cy="4.2" r="3.4" fill="currentColor" />
    <path d="M4.5 7v6.4" stroke="currentColor" stroke-width="1.4" />
  </svg>
);
