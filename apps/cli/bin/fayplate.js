#!/usr/bin/env node
import '../bundle/fayplate.mjs';
