package org.intercusp.conformance;

import java.io.Reader;
import java.util.Map;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** Makes XML readers that resolve, fetch and expand nothing. */
final class XmlReaders {

  private final XMLInputFactory factory;

  XmlReaders(GuardLimits limits) {
    factory = XMLInputFactory.newFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    // With document types off, a reader told to replace entities has none to replace them by and
    // fails at the first; told not to, it drops those in attributes in silence.
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, true);
    factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, true);
    factory.setProperty(XMLInputFactory.IS_COALESCING, false);
    factory.setXMLResolver(
        (publicId, systemId, baseUri, space) -> {
          throw new XMLStreamException("external entities are not read");
        });
    // The reader's own limits, behind ours. Names as the one implementation on the class path has
    // them; another implementation has limits of its own.
    Map.of(
            "com.ctc.wstx.maxElementDepth",
            limits.depth() + limits.narrativeDepth() + 2,
            "com.ctc.wstx.maxAttributesPerElement",
            32,
            "com.ctc.wstx.maxAttributeSize",
            limits.bytes(),
            "com.ctc.wstx.maxEntityCount",
            1)
        .forEach(
            (name, value) -> {
              if (factory.isPropertySupported(name)) {
                factory.setProperty(name, value);
              }
            });
  }

  XMLStreamReader open(Reader text) throws XMLStreamException {
    return factory.createXMLStreamReader(text);
  }

  /** The first line of what a reader says, without the place, which is told apart. */
  static String reason(XMLStreamException e) {
    String message = String.valueOf(e.getMessage());
    int end = message.indexOf('\n');
    return end < 0 ? message : message.substring(0, end);
  }
}
