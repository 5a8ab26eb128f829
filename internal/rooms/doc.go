// Package rooms holds the test that keeps imports running one way.
package rooms
