package org.intercusp.exchange;

import java.io.IOException;
import java.nio.file.Path;
import org.intercusp.app.demo.RecordsServer;
import org.intercusp.app.demo.RecordsServerJar;

/**
 * A process that starts a records server and then does nothing until it is killed: {@code
 * RecordsServerParent jar|node OUTPUT}. Prints the server's process id and its URL.
 */
final class RecordsServerParent {

  private RecordsServerParent() {}

  public static void main(String[] arguments) throws IOException, InterruptedException {
    Path output = Path.of(arguments[1]);
    RecordsServer server =
        arguments[0].equals("node")
            ? NodeRecordsServer.start(output)
            : RecordsServerJar.ofBuild().start(RecordsServerJar.Temper.PLAIN, output);
    System.out.println(server.pid().orElseThrow() + " " + server.baseUrl());
    Thread.sleep(Long.MAX_VALUE);
  }
}
