// leat's own process: its streams and the signals that end it.
#pragma once

namespace leat::render {

/// To be called first thing, before any other thread begins: no stream is missing, a failed write
/// is an error and no signal, and Ctrl-C, SIGTERM and a terminal that closes undo what is half done
/// (interruption.h) before they end the process.
void prepare_process();

}  // namespace leat::render
