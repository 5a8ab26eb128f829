// Package docs holds the tests that the docs are true.
package docs
