"""A program on a pseudo-terminal, and the screen that its user sees."""

import fcntl
import os
import pathlib
import pty
import select
import shutil
import signal
import struct
import subprocess
import termios

import pyte


class FullStream(pyte.ByteStream):
    """Knows the control functions of xterm that curses uses and pyte lacks."""

    csi = pyte.ByteStream.csi | {"Z": "cursor_back_tab", "b": "repeat", "S": "scroll_up", "T": "scroll_down"}
    events = pyte.ByteStream.events | {"cursor_back_tab", "repeat", "scroll_up", "scroll_down"}


class FullScreen(pyte.Screen):
    last_drawn = " "

    def draw(self, data):
        if data:
            self.last_drawn = data[-1]
        super().draw(data)

    def repeat(self, count=1):
        super().draw(self.last_drawn * (count or 1))

    def _scroll(self, row_of, move, count):
        row, column = self.cursor.y, self.cursor.x
        margins = self.margins or pyte.screens.Margins(0, self.lines - 1)
        for _ in range(count or 1):
            self.cursor.y = row_of(margins)
            move()
        self.cursor.y, self.cursor.x = row, column

    def scroll_up(self, count=1):
        self._scroll(lambda margins: margins.bottom, self.index, count)

    def scroll_down(self, count=1):
        self._scroll(lambda margins: margins.top, self.reverse_index, count)

    def cursor_back_tab(self, count=1):
        for _ in range(count or 1):
            stops = [stop for stop in self.tabstops if stop < self.cursor.x]
            self.cursor.x = max(stops, default=0)


class Terminal:
    """Starts the program; `press` types and waits until the screen stands still."""

    def __init__(self, arguments, columns=80, rows=24, **settings):
        self.primary, secondary = pty.openpty()
        self._set_size(secondary, columns, rows)
        environment = {
            "PATH": os.environ["PATH"],
            "TERM": "xterm-256color",
            "LC_ALL": "C.UTF-8",
            "TZ": "UTC",
            "SOURCE_DATE_EPOCH": "1795618800",  # 25 November 2026, 15:00
        } | settings
        environment["LSAN_OPTIONS"] = (
            f"suppressions={pathlib.Path(__file__).with_name('leaks_of_ncurses.txt')}:print_suppressions=0"
            # Without the tool that names functions, its absence would be written over the screen.
            + ("" if shutil.which("llvm-symbolizer") else ":symbolize=0"))
        environment |= {name: os.environ[name] for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS") if name in os.environ}

        def own_terminal():
            os.setsid()
            fcntl.ioctl(0, termios.TIOCSCTTY, 0)

        self.process = subprocess.Popen(
            arguments, stdin=secondary, stdout=secondary, stderr=secondary, env=environment,
            close_fds=True, preexec_fn=own_terminal,
        )
        os.close(secondary)
        self.screen = FullScreen(columns, rows)
        self.stream = FullStream(self.screen)
        self.sent = b""
        self.settle()

    @staticmethod
    def _set_size(terminal, columns, rows):
        fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    def settle(self, first_s=10.0, quiet_s=0.25):
        """Reads until the program has said something, then nothing for a while, and waits for keys."""
        wait = first_s
        while select.select([self.primary], [], [], wait)[0] or self._is_busy():
            if not select.select([self.primary], [], [], 0)[0]:
                continue
            try:
                piece = os.read(self.primary, 65536)
            except OSError:  # the other end is closed
                break
            if not piece:
                break
            self.sent += piece
            self.stream.feed(piece)
            wait = quiet_s
        return self

    def _is_busy(self):
        """Running, or writing to the disk: a busy machine is no reason to look too early."""
        try:
            with open(f"/proc/{self.process.pid}/stat", encoding="ascii") as status:
                return status.read().rsplit(")", 1)[1].split()[0] in "RD"
        except OSError:
            return False

    def press(self, keys):
        os.write(self.primary, keys if isinstance(keys, bytes) else keys.encode())
        return self.settle()

    def resize(self, columns, rows):
        self.screen.resize(rows, columns)
        self._set_size(self.primary, columns, rows)
        self.process.send_signal(signal.SIGWINCH)
        return self.settle()

    def kill(self):
        self.process.kill()
        self.process.wait()
        os.close(self.primary)

    def hang_up(self):
        os.close(self.primary)
        return self.process.wait(timeout=10)

    def end(self):
        """The exit status, once the program has ended by itself."""
        self.settle(first_s=1.0)
        status = self.process.wait(timeout=10)
        os.close(self.primary)
        return status

    def text(self):
        return "\n".join(line.rstrip() for line in self.screen.display) + "\n"

    def marked(self):
        """The screen, and below it what stands out: reversed text, with its colour."""
        marks = []
        for row in range(self.screen.lines):
            cells = [self.screen.buffer[row][column] for column in range(self.screen.columns)]
            text, style = "", None
            for cell in cells + [None]:
                now = (cell.bold, cell.fg) if cell is not None and cell.reverse else None
                if now != style:
                    if style is not None:
                        weight = "bold " if style[0] else ""
                        marks.append(f"row {row + 1}, {weight}reverse, {style[1]}: {text}")
                    text, style = "", now
                if cell is not None:
                    text += cell.data
        return self.text() + "".join(mark.rstrip() + "\n" for mark in marks)
