package org.intercusp.app;

import com.sun.source.doctree.DocCommentTree;
import com.sun.source.doctree.DocTree;
import com.sun.source.doctree.ParamTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.util.DocTrees;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreePathScanner;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;

/** What the Javadoc of records says of their components, read by the compiler itself. */
final class SettingsWords {

  private final Path sources;
  private final Map<String, Map<String, String>> read = new HashMap<>();

  SettingsWords(Path sources) {
    this.sources = sources;
  }

  /** The meaning of a component; empty where nothing stands there. */
  String of(Class<?> record, String component) {
    Class<?> outermost = record;
    while (outermost.getEnclosingClass() != null) {
      outermost = outermost.getEnclosingClass();
    }
    Path file = sources.resolve(outermost.getName().replace('.', '/') + ".java");
    return read.computeIfAbsent(file.toString(), name -> words(file))
        .getOrDefault(record.getSimpleName() + "." + component, "");
  }

  private static Map<String, String> words(Path file) {
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    Map<String, String> words = new HashMap<>();
    try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, null)) {
      JavacTask task =
          (JavacTask)
              compiler.getTask(
                  null, files, null, List.of("-proc:none"), null, files.getJavaFileObjects(file));
      CompilationUnitTree unit = task.parse().iterator().next();
      DocTrees docs = DocTrees.instance(task);
      new TreePathScanner<Void, Void>() {
        @Override
        public Void visitClass(ClassTree type, Void nothing) {
          DocCommentTree comment = docs.getDocCommentTree(getCurrentPath());
          if (comment != null) {
            comment.getBlockTags().stream()
                .filter(ParamTree.class::isInstance)
                .map(ParamTree.class::cast)
                .forEach(
                    param ->
                        words.put(
                            type.getSimpleName() + "." + param.getName(),
                            plain(param.getDescription())));
          }
          return super.visitClass(type, nothing);
        }
      }.scan(unit, null);
      return words;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String plain(List<? extends DocTree> description) {
    return description.stream()
        .map(DocTree::toString)
        .collect(Collectors.joining())
        .replaceAll("\\{@code\\s+([^}]*)\\}", "`$1`")
        .replaceAll("\\s+", " ")
        .strip();
  }
}
