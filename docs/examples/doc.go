// Package examples holds profiles and briefs that show how to write one's own, and the test that they can be drawn.
package examples
