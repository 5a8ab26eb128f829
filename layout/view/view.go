// Package view turns a plan into a solid and finds what cameras see of it: the front, rear, top and side view and true pinhole
// perspective, with exact ellipses, hidden lines and contours. It knows no paper: what it gives lies in plan space or on a
// camera's picture. How the solid and the cameras work is described in docs/views.md.
package view
