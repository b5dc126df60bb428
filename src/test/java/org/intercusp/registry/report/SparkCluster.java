package org.intercusp.registry.report;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A standalone cluster of Spark: a master and two workers, each with an executor of one core. */
final class SparkCluster implements AutoCloseable {

  private static final int WORKERS = 2;

  private final String master;
  private final List<SparkProcess> processes = new ArrayList<>();

  private SparkCluster(String master) {
    this.master = master;
  }

  static SparkCluster started(Path home) throws IOException, InterruptedException {
    int port = freePort();
    SparkCluster cluster = new SparkCluster("spark://127.0.0.1:" + port);
    try {
      cluster.start(
          home,
          "master",
          "org.apache.spark.deploy.master.Master",
          List.of("--host", "127.0.0.1", "--port", String.valueOf(port), "--webui-port", "0"));
      cluster.processes.get(0).awaitLogged("I have been elected leader");
      for (int i = 1; i <= WORKERS; i++) {
        cluster.start(
            home,
            "worker-" + i,
            "org.apache.spark.deploy.worker.Worker",
            List.of(
                "--host",
                "127.0.0.1",
                "--webui-port",
                "0",
                "--cores",
                "1",
                "--memory",
                "1g",
                "--work-dir",
                home.resolve("work-" + i).toString(),
                cluster.master));
        cluster.processes.get(i).awaitLogged("Successfully registered with master");
      }
      return cluster;
    } catch (IOException | InterruptedException | RuntimeException e) {
      cluster.close();
      throw e;
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private void start(Path home, String name, String main, List<String> arguments)
      throws IOException {
    processes.add(SparkProcess.start(home, name, main, arguments));
  }

  /** What jobs are submitted to. */
  String master() {
    return master;
  }

  /** How many executors the workers have started. */
  int executors() throws IOException {
    int executors = 0;
    for (SparkProcess one : processes) {
      executors += Files.readString(one.log()).split("Asked to launch executor", -1).length - 1;
    }
    return executors;
  }

  @Override
  public void close() {
    processes.forEach(SparkProcess::close);
  }
}
