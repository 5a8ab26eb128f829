package reading

// Trials is trials for tests outside the package.
var Trials = trials
