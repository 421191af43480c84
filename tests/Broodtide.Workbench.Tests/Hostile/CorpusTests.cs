using Broodtide.Fuzzing;

namespace Broodtide.Workbench.Tests.Hostile;

/// <summary>What the fuzzer has found worth keeping, read again by every reader that it was found for.</summary>
public sealed class CorpusTests
{
    public static TheoryData<string> All() => [.. Readers.Names];

    [Theory]
    [MemberData(nameof(All))]
    public void No_input_makes_a_reader_throw(string reader)
    {
        var read = Readers.Find(reader);
        var files = Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "fuzz", reader));
        Assert.NotEmpty(files);
        foreach (var file in files)
        {
            var fault = Record.Exception(() => read(File.ReadAllBytes(file)));
            Assert.True(fault is null, $"{Path.GetFileName(file)}: {fault}");
        }
    }

    [Theory]
    [InlineData("planted-1", "BRODz")]
    [InlineData("planted-3", "\u00ff\u00ff\u00ff\u00ff\u00ff\u00ff")]
    [InlineData("planted-4", "sc=0")]
    [InlineData("planted-5", "abc;abc;")]
    public void A_planted_fault_is_seen(string reader, string input) =>
        Assert.NotNull(
            Record.Exception(() => Readers.Find(reader)(System.Text.Encoding.Latin1.GetBytes(input)))
        );

    [Fact]
    public void Brackets_without_an_end_are_seen() =>
        Assert.NotNull(
            Record.Exception(() =>
                Readers.Find("planted-2")(System.Text.Encoding.Latin1.GetBytes(new string('(', 50)))
            )
        );
}
