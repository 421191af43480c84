using Broodtide.Science.Development;
using Broodtide.Scoring;

namespace Broodtide.Science.Tests.Development;

public sealed class ScoringFilesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("runs").FullName;

    [Fact]
    public void A_run_is_read_with_its_kinds_times_and_degrees()
    {
        var evidence = EventsFile.Read(
            Events(
                "-1.5,last_seen_empty,",
                "0.25,berried,",
                "1,temperature,24.5",
                "9,not_eyed,",
                "14,eyed,1",
                "14,pale,",
                "15,still_carried,",
                "15,saddle,",
                "18,dropped,"
            )
        );

        Assert.Equal(7, evidence.Facts.Count);
        Assert.Contains(new BroodFact.EggsLookedAt(14, true, true), evidence.Facts);
        Assert.Contains(new BroodFact.SeenEmpty(-1.5), evidence.Facts);
        Assert.Equal(24.5, Assert.Single(evidence.Temperatures).Temperature.Celsius);
    }

    [Fact]
    public void Zero_no_and_false_say_the_opposite()
    {
        var evidence = EventsFile.Read(Events("0,berried,yes", "5,eyed,0", "6,not_eyed,no", "7,pale,false"));

        Assert.Contains(new BroodFact.EggsLookedAt(5, false, null), evidence.Facts);
        Assert.Contains(new BroodFact.EggsLookedAt(6, true, null), evidence.Facts);
        Assert.Contains(new BroodFact.EggsLookedAt(7, null, false), evidence.Facts);
    }

    [Fact]
    public void An_empty_look_without_a_time_means_that_the_age_is_unknown() =>
        Assert.True(EventsFile.Read(Events(",last_seen_empty,", "3,berried,")).AgeUnknown);

    [Theory]
    [InlineData("3,temperature,77", "line 3: temperature is '77'; allowed is a number from -5 to 50")]
    [InlineData("3,hatched,", "line 3: kind is 'hatched'; allowed is one of last_seen_empty, berried")]
    [InlineData("soon,eyed,", "line 3: t_days is 'soon'; allowed is a number of days")]
    [InlineData("NaN,eyed,", "line 3: t_days is 'NaN'")]
    [InlineData("3,temperature,", "line 3: temperature is ''")]
    public void A_line_that_cannot_be_read_is_named_with_what_is_allowed(string line, string expected)
    {
        var trouble = Assert.Throws<FileTroubleException>(() => EventsFile.Read(Events("0,berried,", line)));

        Assert.Contains(expected, trouble.Message, StringComparison.Ordinal);
        Assert.Contains("events.csv", trouble.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_without_eggs_or_with_another_header_is_refused_in_words()
    {
        Assert.Contains(
            "no line shows eggs",
            Assert.Throws<FileTroubleException>(() => EventsFile.Read(Events("3,last_seen_empty,"))).Message,
            StringComparison.Ordinal
        );
        var other = Write("events.csv", "when,what", "0,berried");
        Assert.Contains(
            "must name the columns t_days,kind,value",
            Assert.Throws<FileTroubleException>(() => EventsFile.Read(other)).Message,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("23.4,first_hatch,", 23.4)]
    [InlineData("23.4,first_hatch,23.4", 23.4)]
    [InlineData(",first_hatch,23.4", 23.4)]
    [InlineData("0,first_hatch,23.4", 23.4)]
    [InlineData("23.4,first_hatch,1", 23.4)]
    [InlineData("23.4,first_hatch,true", 23.4)]
    public void The_true_day_stands_in_value_or_else_in_the_time(string line, double expected) =>
        Assert.Equal(expected, TruthFile.FirstHatch(Write("truth.csv", "t_days,quantity,value", line)));

    [Fact]
    public void A_truth_without_a_hatch_is_forecast_but_not_scored()
    {
        Events("0,berried,", "9,eyed,", "12,dropped,");
        Write("truth.csv", "t_days,quantity,value", "12,eggs_lost,80");
        var board = new Board(ReferencePriors.ReferenceSpecies);

        Assert.Contains(
            "off the mother; no first_hatch, not scored",
            board.Take(_folder),
            StringComparison.Ordinal
        );
        Assert.Equal(0, board.Scored);
    }

    [Fact]
    public void The_interval_score_is_the_published_one()
    {
        // Gneiting and Raftery 2007, J. Am. Stat. Assoc. 102:359-378, eq. 43, alpha 0.1.
        Assert.Equal(46, Board.Score((25, 31, 33)), 9);
        Assert.Equal(6, Board.Score((25, 31, 28)), 9);
    }

    [Fact]
    public void Published_durations_that_carry_a_temperature_are_printed_beside_the_prior()
    {
        var file = Path.Combine(Root(), "tests", "reference", "development-times.csv");
        var rows = DevelopmentRows.Beside(ReferencePriors.ReferenceSpecies, file).ToArray();

        foreach (var row in rows)
        {
            TestContext.Current.TestOutputHelper?.WriteLine(row);
        }

        Assert.Contains(
            rows,
            row => row.StartsWith("Caridina multidentata,embryo,25.5,25,", StringComparison.Ordinal)
        );
        Assert.Contains(
            rows,
            row => row.StartsWith("Macrobrachium rosenbergii,embryo,28,", StringComparison.Ordinal)
        );
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Events(params string[] lines) => Write("events.csv", ["t_days,kind,value", .. lines]);

    private string Write(string name, params string[] lines)
    {
        var file = Path.Combine(_folder, name);
        File.WriteAllLines(file, lines);
        return file;
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
        {
            folder =
                folder.Parent
                ?? throw new DirectoryNotFoundException("The repository is not above the tests.");
        }

        return folder.FullName;
    }
}
