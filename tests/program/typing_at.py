"""A real shell at a pseudo-terminal: what the completion key makes of a line."""

import os
import pathlib
import pty
import select
import subprocess
import tempfile
import time

# Control-X writes the line as it stands into the file `line`, so that nothing depends on how a
# shell draws it.
BASH = """
PS1='> '
bind 'set completion-ignore-case off'
bind 'set bell-style none'
bind -x '"\\C-x": printf "%s" "$READLINE_LINE" > "$LINE.new"; mv "$LINE.new" "$LINE"'
source "$SCRIPT"
"""
ZSH = """
PS1='> '
unsetopt beep zle_bracketed_paste
fpath=("$FUNCTIONS" $fpath)
autoload -U compinit
compinit -u -D
bindkey -e
bindkey '^I' complete-word
tell() { printf "%s" "$BUFFER" > "$LINE.new"; command mv "$LINE.new" "$LINE" }
zle -N tell
bindkey '^X' tell
"""


def line_after_tab(shell, script, typed, directory, program):
    """The line that `typed` has become after the completion key. `program` is found by its name."""
    with tempfile.TemporaryDirectory(prefix="tubewright-typing-") as folder:
        folder = pathlib.Path(folder)
        (folder / "_tubewright").write_text(script)
        line = folder / "line"
        environment = {"PATH": os.path.dirname(program) + ":/usr/bin:/bin", "TERM": "vt100",
                       "HOME": str(folder), "ZDOTDIR": str(folder), "LINE": str(line),
                       "LC_ALL": "C.UTF-8", "HISTFILE": "",
                       "SCRIPT": str(folder / "_tubewright"), "FUNCTIONS": str(folder)}
        if shell == "bash":
            (folder / "rc").write_text(BASH)
            command = ["bash", "--noprofile", "--rcfile", str(folder / "rc"), "-i"]
        else:
            (folder / ".zshrc").write_text(ZSH)
            command = ["zsh", "-d", "-i"]
        master, slave = pty.openpty()
        process = subprocess.Popen(command, stdin=slave, stdout=slave, stderr=slave, cwd=directory,
                                   env=environment, start_new_session=True)
        os.close(slave)
        seen = b""
        try:
            keys = [b"", typed.encode() + b"\t\x18"]
            end = time.monotonic() + 60
            while time.monotonic() < end and not line.exists():
                if select.select([master], [], [], 0.05)[0]:
                    seen += os.read(master, 65536)
                # The first prompt tells that the shell listens.
                if len(keys) == 2 and b"> " in seen:
                    os.write(master, keys.pop())
            if not line.exists():
                raise AssertionError(f"{shell} did not answer: {seen!r}")
            return line.read_text()
        finally:
            process.kill()
            process.wait()
            os.close(master)
