#!/usr/bin/env node
// Stands here before the first build, so that npm can link the command when it installs.
import '../dist/main.js';
