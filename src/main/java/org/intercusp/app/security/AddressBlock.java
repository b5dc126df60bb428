package org.intercusp.app.security;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.HexFormat;
import java.util.regex.Pattern;

/**
 * Which addresses are one for counting: those that whoever has one of them can change to at will.
 * An IPv4 address is counted by itself; of an IPv6 address the first 64 bits, since the other 64
 * are the machine's own choice (RFC 4291, section 2.5.1; RFC 8981).
 */
final class AddressBlock {

  private static final int PREFIX_BYTES = 8;

  /** What is written like an IPv6 address; nothing else may be looked up as a name. */
  private static final Pattern IPV6 =
      Pattern.compile("\\[?([0-9a-fA-F:.]*:[0-9a-fA-F:.]*)(%.*)?]?");

  private AddressBlock() {}

  /** The name of the block that an address lies in; what is no address stands for itself. */
  static String of(String address) {
    var written = IPV6.matcher(address);
    if (!written.matches()) {
      return address;
    }
    try {
      // One that holds an IPv4 address is read as that.
      InetAddress read = InetAddress.getByName(written.group(1));
      return read instanceof Inet6Address
          ? HexFormat.of().formatHex(read.getAddress(), 0, PREFIX_BYTES) + "/64"
          : read.getHostAddress();
    } catch (UnknownHostException e) {
      return address;
    }
  }
}
