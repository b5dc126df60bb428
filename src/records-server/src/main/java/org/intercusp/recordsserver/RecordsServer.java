package org.intercusp.recordsserver;

import java.io.File;
import java.io.IOException;
import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.file.Files;
import org.apache.catalina.Context;
import org.apache.catalina.LifecycleException;
import org.apache.catalina.startup.Tomcat;
import org.springframework.beans.factory.support.DefaultListableBeanFactory;
import org.springframework.context.annotation.AnnotationConfigApplicationContext;

/**
 * Starts the records server on the loopback interface and prints one line, {@code records server
 * ready at URL}, when its CapabilityStatement answers. See {@link Options} for the command line and
 * {@link ParentWatch} for its end.
 */
public final class RecordsServer {

  private static final String LOOPBACK = "127.0.0.1";

  private RecordsServer() {}

  public static void main(String[] arguments) {
    ParentWatch.start(System.in);
    try {
      Options options = Options.of(arguments);
      URI base = serve(options.port(), storage(options.temper(), options.release()));
      awaitMetadata(base);
      System.out.println("records server ready at " + base);
    } catch (Exception e) {
      e.printStackTrace();
      Runtime.getRuntime().halt(1);
    }
  }

  private static AnnotationConfigApplicationContext storage(Temper temper, Release release) {
    DefaultListableBeanFactory beans = new DefaultListableBeanFactory();
    // HAPI's own configurations override and refer to one another.
    beans.setAllowBeanDefinitionOverriding(true);
    beans.setAllowCircularReferences(true);
    beans.registerSingleton("temper", temper);
    AnnotationConfigApplicationContext context = new AnnotationConfigApplicationContext(beans);
    context.register(release.parts(), Storage.class);
    context.refresh();
    return context;
  }

  private static URI serve(int port, AnnotationConfigApplicationContext storage)
      throws IOException, LifecycleException {
    File scratch = Files.createTempDirectory("records-server").toFile();
    scratch.deleteOnExit();
    Tomcat tomcat = new Tomcat();
    tomcat.setBaseDir(scratch.getPath());
    tomcat.setHostname(LOOPBACK);
    tomcat.setPort(port);
    tomcat.getConnector().setProperty("address", LOOPBACK);
    // A pipe in a search URL must be percent-encoded: Tomcat refuses it bare, and so it should.
    Context web = tomcat.addContext("", scratch.getPath());
    Tomcat.addServlet(web, "fhir", storage.getBean(FhirDoor.class)).setLoadOnStartup(1);
    web.addServletMappingDecoded("/fhir/*", "fhir");
    tomcat.start();
    return URI.create("http://" + LOOPBACK + ":" + tomcat.getConnector().getLocalPort() + "/fhir");
  }

  private static void awaitMetadata(URI base) throws IOException {
    HttpURLConnection metadata =
        (HttpURLConnection) URI.create(base + "/metadata").toURL().openConnection();
    metadata.setRequestProperty("Accept", "application/fhir+json");
    if (metadata.getResponseCode() != HttpURLConnection.HTTP_OK) {
      throw new IOException("metadata answered " + metadata.getResponseCode());
    }
    metadata.getInputStream().readAllBytes();
  }
}
