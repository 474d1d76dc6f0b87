"""The callers of the load check that wrk cannot play: each mode is one of them."""

import http.client
import os
import signal
import socket
import subprocess
import sys
import threading
import time


def is_ready(port):
    try:
        with socket.create_connection(("127.0.0.1", port), timeout=1) as s:
            s.sendall(b"GET /readyz HTTP/1.1\r\nHost: load\r\nConnection: close\r\n\r\n")
            return s.recv(64).startswith(b"HTTP/1.1 200")
    except OSError:
        return False


def until_ready(port, since, limit=10):
    """Milliseconds until /readyz answers 200."""
    while not is_ready(port):
        if time.monotonic() - since > limit:
            sys.exit("the service was not ready within %d s" % limit)
        time.sleep(0.0005)
    return (time.monotonic() - since) * 1000


def ready(binary, port):
    """Print the least time from exec to ready of eight starts, the least time on a processor, both in
    milliseconds, and how many processes want to run, for each processor."""
    times, busy = [], []
    for _ in range(8):
        since = time.monotonic()
        service = subprocess.Popen([binary, "serve"], stdout=subprocess.DEVNULL, env={**os.environ, "TRACTCHECK_DRAIN": "0s"})
        times.append(until_ready(port, since))
        busy.append(on_processor(service.pid))
        service.terminate()
        service.wait(10)
    print(round(min(times), 1), round(min(busy), 1), round(os.getloadavg()[0] / os.cpu_count(), 2))


def on_processor(process):
    """Milliseconds that all threads of a process have run, itself and inside the kernel."""
    total = 0
    for thread in os.listdir("/proc/%d/task" % process):
        with open("/proc/%d/task/%s/schedstat" % (process, thread)) as file:
            total += int(file.read().split()[0])
    return total / 1e6


def posting(body):
    return (
        b"POST /v1/assessments HTTP/1.1\r\nHost: load\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n" % len(body)
    )


def hold(port, body, idle, slow):
    """Hold idle connections open, and send bodies a byte at a time, until ended."""
    connections = [socket.create_connection(("127.0.0.1", port)) for _ in range(idle)]
    for s in connections[::2]:  # half have asked before, half never said anything
        s.sendall(b"GET /healthz HTTP/1.1\r\nHost: load\r\n\r\n")

    def start():
        s = socket.create_connection(("127.0.0.1", port))
        s.sendall(posting(body))
        return [s, 0]

    slow_ones = [start() for _ in range(slow)]
    print("held", len(connections), flush=True)
    while True:
        time.sleep(0.05)
        for i, (s, at) in enumerate(slow_ones):
            try:
                s.sendall(body[at:at + 1])
                slow_ones[i][1] = at + 1
            except OSError:  # its time was over
                s.close()
                slow_ones[i] = start()


def abuse(port, body):
    """Send long headers without an end, large bodies but for their last bytes, and questions whose answers
    are never taken, all at once, while an honest caller at another address goes on asking. Print its slowest answer in seconds."""
    large = b" " * (1 << 20)
    many = [b"GET /healthz HTTP/1.1\r\nHost: load\r\nX-Long: " + b"x" * 11000] * 2000
    many += [posting(large) + large[:-2]] * 40
    many += [(posting(body) + body) * 60] * 300
    held = []

    def send(text):
        s = socket.socket()
        s.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
        s.bind(("127.0.0.2", 0))
        s.connect(("127.0.0.1", port))
        s.settimeout(0.2)
        held.append(s)
        try:
            s.sendall(text)
        except OSError:  # it is not taken, or was cut off
            pass

    def attack(texts):
        for text in texts:
            send(text)

    threads = [threading.Thread(target=attack, args=(many[i::16],), daemon=True) for i in range(16)]
    for t in threads:
        t.start()
    slowest, statuses, until = 0, [], time.monotonic() + 8
    while time.monotonic() < until:
        since = time.monotonic()
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=15)
        connection.request("POST", "/v1/assessments", body, {"Content-Type": "application/json"})
        response = connection.getresponse()
        response.read()
        statuses.append(response.status)
        connection.close()
        slowest = max(slowest, time.monotonic() - since)
        time.sleep(0.1)
    print(round(slowest, 2), len(statuses), statuses.count(200))


class Tally:
    """What happened to the requests that were sent whole."""

    def __init__(self):
        self.lock = threading.Lock()
        self.answered = self.after_signal = self.refused = self.lost = 0
        self.reasons = set()

    def add(self, name, reason=None):
        with self.lock:
            setattr(self, name, getattr(self, name) + 1)
            if reason:
                self.reasons.add(reason)


class Caller:
    """One keep-alive connection after another."""

    def __init__(self, port, body, tally, signalled):
        self.port, self.body, self.tally, self.signalled = port, body, tally, signalled
        self.connection = None

    def ask(self, pause=0):
        """Send a request whole, its last byte after a pause, and read the whole answer.
        False where nobody listens any more."""
        if self.connection is None:
            connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=15)
            try:
                connection.connect()
            except OSError:
                return False
            self.connection = connection
        try:
            self.connection.putrequest("POST", "/v1/assessments")
            self.connection.putheader("Content-Type", "application/json")
            self.connection.putheader("Content-Length", str(len(self.body)))
            self.connection.endheaders(self.body[:-1])
            time.sleep(pause)
            self.connection.send(self.body[-1:])
        except OSError as e:
            self.tally.add("lost", "while sending: %r" % e)
            self.connection = None
            return True
        try:
            response = self.connection.getresponse()
            response.read()
        except (OSError, http.client.HTTPException) as e:
            self.tally.add("lost", repr(e))
            self.connection = None
            return True
        self.tally.add("answered" if response.status == 200 else "refused")
        if self.signalled.is_set():
            self.tally.add("after_signal")
        if response.will_close:
            self.connection.close()
            self.connection = None
        return True


def stop(port, body, service):
    """Ask over keep-alive connections, send SIGTERM, and count the requests that got no whole answer.

    The service goes on for a second after the signal so that balancers send new requests elsewhere; so do
    the callers here, 0.7 s after it. Some requests are half sent by then and end after that second."""
    tally, signalled, leave = Tally(), threading.Event(), threading.Event()

    def steady():
        caller = Caller(port, body, tally, signalled)
        while not leave.is_set() and caller.ask():
            pass

    def late():
        signalled.wait()
        time.sleep(0.5)
        caller = Caller(port, body, tally, signalled)
        if not caller.ask(pause=1):
            tally.add("lost", "nobody listened half a second after the signal")

    threads = [threading.Thread(target=steady) for _ in range(32)] + [threading.Thread(target=late) for _ in range(8)]
    for t in threads:
        t.start()
    time.sleep(2)
    signalled.set()
    os.kill(service, signal.SIGTERM)
    time.sleep(0.7)
    leave.set()
    for t in threads:
        t.join()
    print("      %d answered, %d of all after the signal, %d told to come back later, %d lost %s"
          % (tally.answered, tally.after_signal, tally.refused, tally.lost, sorted(tally.reasons)))
    sys.exit(0 if tally.lost == 0 and tally.answered > 100 and tally.after_signal > 8 else 1)


def main():
    mode, rest = sys.argv[1], sys.argv[2:]
    if mode == "ready":
        ready(rest[0], int(rest[1]))
    elif mode == "await":
        until_ready(int(rest[0]), time.monotonic())
    else:
        with open(rest[1], "rb") as file:
            body = file.read()
        if mode == "hold":
            hold(int(rest[0]), body, int(rest[2]), int(rest[3]))
        elif mode == "abuse":
            abuse(int(rest[0]), body)
        elif mode == "stop":
            stop(int(rest[0]), body, int(rest[2]))
        else:
            sys.exit("no such mode: " + mode)


main()
