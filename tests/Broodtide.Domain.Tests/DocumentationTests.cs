using System.Text;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;

namespace Broodtide.Domain.Tests;

public class DocumentationTests
{
    // Per kind: a heading with its stored name in code marks, a table of fields, a block with an example.
    private static readonly Dictionary<string, (List<string> Fields, string Example)> Sections = Read();

    [Fact]
    public void Every_kind_has_a_section_and_every_section_a_kind() =>
        Assert.Equal(Kinds.All.Select(kind => kind.Name).Order(), Sections.Keys.Order());

    [Fact]
    public void The_example_of_a_kind_is_what_the_program_writes() =>
        Assert.All(
            Samples.All,
            sample =>
            {
                var kind = Kinds.Of(sample);
                var example = CanonicalJson.From(Encoding.UTF8.GetBytes(Sections[kind.Name].Example));
                Assert.Equal(Encoding.UTF8.GetString(kind.Write(sample)), Encoding.UTF8.GetString(example));
                Assert.IsType(sample.GetType(), Kinds.Read(kind.Name, kind.Version, example));
            }
        );

    [Fact]
    public void The_table_of_a_kind_names_its_fields() =>
        Assert.All(
            Kinds.All,
            kind =>
                Assert.Equal(
                    kind.Type.GetProperties()
                        .Select(p => JsonNamingPolicy.CamelCase.ConvertName(p.Name))
                        .Order(),
                    Sections[kind.Name].Fields.Order()
                )
        );

    [Fact]
    public void The_example_of_an_envelope_and_of_a_file_are_read()
    {
        var blocks = Blocks("An entry");
        var envelope = CanonicalJson.From(Encoding.UTF8.GetBytes(blocks[0]));
        var read = EnvelopeText.Read(envelope);
        Assert.True(read.Succeeded, read.Reason?.ToString());
        Assert.Equal(envelope, EnvelopeText.Write(read.Value));

        var file = Blocks("JSON Lines").Single().Split('\n');
        Assert.Equal(JournalLines.Write(JournalLines.Read(file).Value), file);
    }

    private static List<string> Blocks(string heading)
    {
        var blocks = new List<string>();
        var inside = false;
        StringBuilder? block = null;
        foreach (var line in Files.Lines("docs/journal.md"))
        {
            inside = line.StartsWith("## ", StringComparison.Ordinal) ? line == $"## {heading}" : inside;
            if (inside && line.StartsWith("```", StringComparison.Ordinal))
            {
                if (block is not null)
                {
                    blocks.Add(block.ToString().TrimEnd('\n'));
                }

                block = block is null ? new StringBuilder() : null;
            }
            else if (inside)
            {
                block?.Append(line).Append('\n');
            }
        }

        return blocks;
    }

    private static Dictionary<string, (List<string> Fields, string Example)> Read()
    {
        var sections = new Dictionary<string, (List<string> Fields, string Example)>();
        var name = "";
        var fields = new List<string>();
        StringBuilder? example = null;
        foreach (var line in Files.Lines("docs/journal.md"))
        {
            if (line.StartsWith("#### `", StringComparison.Ordinal))
            {
                (name, fields) = (line[6..].TrimEnd('`'), []);
            }
            else if (name.Length > 0 && line.StartsWith("| `", StringComparison.Ordinal))
            {
                fields.Add(line.Split('`')[1]);
            }
            else if (name.Length > 0 && line == "```json")
            {
                example = new StringBuilder();
            }
            else if (example is not null && line == "```")
            {
                sections.Add(name, (fields, example.ToString()));
                (name, example) = ("", null);
            }
            else
            {
                example?.Append(line).Append('\n');
            }
        }

        return sections;
    }
}
