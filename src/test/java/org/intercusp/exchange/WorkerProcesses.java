package org.intercusp.exchange;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStreamWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.intercusp.exchange.Schedule.Step.Submit;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.wire.Target;
import tools.jackson.databind.json.JsonMapper;

/** Senders in processes of their own: one on a database file, or two on one server. */
final class WorkerProcesses implements Senders {

  /** A process that has just begun is slow. */
  static final Duration DEADLINE = TwoInstances.deadline().multipliedBy(3);

  private static final JsonMapper JSON = new JsonMapper();

  private final FaultyServer door = new FaultyServer(null);
  private final String database;
  private final List<Worker> working = new ArrayList<>();
  private final Deque<Worker> spare = new ArrayDeque<>();
  private volatile Hospital hospital;
  private int started;

  WorkerProcesses(String database) throws IOException {
    this.database = database;
    door.always(one -> true, (one, real) -> hospital.answer(one));
    for (int i = database.startsWith("jdbc:") ? 3 : 2; i > 0; i--) {
      spare.add(new Worker("worker" + started++));
    }
    while (!spare.isEmpty() && (spare.size() > 1 || working.isEmpty())) {
      begin();
    }
  }

  /** One process and the way to talk to it. */
  private final class Worker {
    private final String name;
    private final Process process;
    private final BufferedReader out;
    private final BufferedWriter in;

    Worker(String name) throws IOException {
      this.name = name;
      process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-Xmx384m",
                  "-XX:+UseSerialGC",
                  "-XX:TieredStopAtLevel=1",
                  "-Duser.timezone=UTC",
                  "-cp",
                  System.getProperty("java.class.path"),
                  ScheduledWorker.class.getName(),
                  database,
                  door.baseUrl().toString(),
                  name,
                  DEADLINE.toString())
              .redirectErrorStream(true)
              .start();
      out =
          new BufferedReader(
              new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
      in =
          new BufferedWriter(
              new OutputStreamWriter(process.getOutputStream(), StandardCharsets.UTF_8));
    }

    String answer() throws IOException {
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        if (line.startsWith(ScheduledWorker.ANSWER)) {
          return line.substring(ScheduledWorker.ANSWER.length());
        }
      }
      throw new IOException(name + " has ended");
    }

    synchronized String told(String what) throws IOException {
      in.write(what + "\n");
      in.flush();
      return answer();
    }

    /** Its pipes may be closed a moment before it is seen to have ended. */
    boolean hasEnded() {
      try {
        return process.waitFor(5, TimeUnit.SECONDS);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return false;
      }
    }

    void kill() {
      process.destroyForcibly();
      try {
        process.waitFor();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private void begin() throws IOException {
    Worker next = spare.remove();
    next.answer();
    next.told("go");
    working.add(next);
  }

  /** Says it to a worker that lives, and once more to another where one was killed meanwhile. */
  private String told(int instance, String what) throws IOException {
    while (true) {
      Worker one;
      synchronized (this) {
        one = working.get(instance % working.size());
      }
      try {
        return one.told(what);
      } catch (IOException e) {
        if (!one.hasEnded()) {
          throw e;
        }
        replace(one);
      }
    }
  }

  private synchronized void replace(Worker gone) throws IOException {
    if (working.remove(gone)) {
      spare.add(new Worker("worker" + started++));
      begin();
    }
  }

  @Override
  public void serve(Hospital behind) {
    door.asked().clear();
    hospital = behind;
  }

  @Override
  public Target target() {
    return door.target();
  }

  @Override
  public Duration patience() {
    return DEADLINE;
  }

  @Override
  public void submit(Submit submit) throws IOException {
    told(submit.version(), "take " + submit.version() + " " + submit.file());
  }

  @Override
  public List<Delivery> deliveries(String mark) throws IOException {
    return List.of(JSON.readValue(told(0, "list " + mark), Delivery[].class));
  }

  @Override
  public void retry(String id) throws IOException {
    told(0, "retry " + id);
  }

  @Override
  public void jump(int instance, Duration offset) throws IOException {
    told(instance, "jump " + offset.toMillis());
  }

  @Override
  public void kill(String authorization) {
    List<Worker> all;
    synchronized (this) {
      all = List.copyOf(working);
    }
    all.stream().filter(one -> authorization.endsWith(" " + one.name)).forEach(Worker::kill);
  }

  @Override
  public void close() throws Exception {
    for (Worker one : working) {
      one.in.close();
      one.process.waitFor(30, TimeUnit.SECONDS);
      one.kill();
    }
    spare.forEach(Worker::kill);
    door.close();
  }
}
