// The language server as an editor talks to it: JSON-RPC over stdio (Language Server Protocol 3.17).
// The server for YAML shows the innermost description of a value that may be of several kinds: what a
// key's value is made of (`definitions` of the schema) must have none of its own. It looks at a
// description beside `$ref`, which JSON Schema validators pass over.
import { spawn } from "node:child_process";
import { join } from "node:path";

/** A server that checks `settings.yaml.schemas`; ask, tell, open and close are all that is needed. */
export class LanguageServer {
  constructor(folder, settings) {
    this.settings = settings;
    this.waiting = new Map(); // request number: what takes the answer
    this.marks = new Map(); // uri: [marks, when they came]
    this.unread = Buffer.alloc(0);
    this.last = 0;
    const program = join(folder, "node_modules/yaml-language-server/bin/yaml-language-server");
    this.process = spawn(process.execPath, [program, "--stdio"], {
      stdio: ["pipe", "pipe", "inherit"],
    });
    this.process.stdout.on("data", (bytes) => this.take(bytes));
    this.process.on("exit", (status) => {
      for (const answer of this.waiting.values()) {
        answer({ error: { message: `the server ended with ${status}` } });
      }
    });
  }

  send(message) {
    const text = JSON.stringify({ jsonrpc: "2.0", ...message });
    this.process.stdin.write(`Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`);
  }

  async ask(method, params) {
    this.last += 1;
    const number = this.last;
    const answer = await new Promise((done) => {
      this.waiting.set(number, done);
      this.send({ id: number, method, params });
    });
    this.waiting.delete(number);
    if (answer.error) throw new Error(`${method}: ${answer.error.message}`);
    return answer.result;
  }

  tell(method, params) {
    this.send({ method, params });
  }

  take(bytes) {
    this.unread = Buffer.concat([this.unread, bytes]);
    for (;;) {
      const head = this.unread.indexOf("\r\n\r\n");
      if (head < 0) return;
      const length = Number(/Content-Length: (\d+)/.exec(this.unread.subarray(0, head))[1]);
      if (this.unread.length < head + 4 + length) return;
      const message = JSON.parse(this.unread.subarray(head + 4, head + 4 + length));
      this.unread = this.unread.subarray(head + 4 + length);
      this.hear(message);
    }
  }

  hear(message) {
    if (message.method === undefined) {
      this.waiting.get(message.id)?.(message);
    } else if (message.method === "workspace/configuration") {
      const result = message.params.items.map((item) => this.settings[item.section] ?? null);
      this.send({ id: message.id, result });
    } else if (message.id !== undefined) {
      this.send({ id: message.id, result: null });
    } else if (message.method === "textDocument/publishDiagnostics") {
      this.marks.set(message.params.uri, message.params.diagnostics);
    }
  }

  /** Begins; is ready when the server marks `broken`, a file that is wrong by the schema. */
  async begin(uri, broken) {
    const markdown = ["markdown"];
    await this.ask("initialize", {
      processId: process.pid,
      rootUri: null,
      capabilities: {
        workspace: { configuration: true },
        textDocument: {
          completion: { completionItem: { snippetSupport: true, documentationFormat: markdown } },
          hover: { contentFormat: markdown },
          publishDiagnostics: {},
        },
      },
    });
    this.tell("initialized", {});
    this.tell("workspace/didChangeConfiguration", { settings: this.settings });
    this.open(uri, broken);
    const end = Date.now() + 60000;
    while (!(this.marks.get(uri)?.length > 0)) {
      if (Date.now() > end) throw new Error("the server never took its settings");
      await new Promise((done) => setTimeout(done, 20));
    }
  }

  open(uri, text) {
    this.marks.delete(uri);
    const textDocument = { uri, languageId: "yaml", version: 1, text };
    this.tell("textDocument/didOpen", { textDocument });
  }

  /** What the server marks in an open file. */
  async marked(uri, longest = 60000) {
    const end = Date.now() + longest;
    while (!this.marks.has(uri)) {
      if (Date.now() > end) throw new Error(`${uri} was never judged`);
      await new Promise((done) => setTimeout(done, 10));
    }
    return this.marks.get(uri);
  }

  async end() {
    await this.ask("shutdown", null);
    this.tell("exit", null);
  }
}
