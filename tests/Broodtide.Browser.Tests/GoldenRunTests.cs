using System.Text.Json;
using Microsoft.Playwright;
using NodaTime.Text;

namespace Broodtide.Browser.Tests;

/// <summary>The same journal gives the same answers on the command line and in the browser.</summary>
[Collection(WritingBrowser.Name)]
public sealed class GoldenRunTests(Browsing browsing)
{
    private const double Agreement = 1e-9;

    [Fact]
    public async Task The_phone_without_its_server_and_the_command_line_give_the_same_answers()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var journal = Path.Combine(server.DataFolder, "demo", "invented.db");
        var invented = await EntriesOnDisk(journal);
        var opened = await Opened.At(phone, server.Address);
        await opened.GoTo("/answers?zone=Europe/Berlin");
        await BothHoldTheSame(opened, journal, invented);
        await server.Stop();

        // Asked for a time after the demo's last entry, in a zone that both know, with the server gone.
        var at = InstantPattern.ExtendedIso.Format(
            NodaTime.SystemClock.Instance.GetCurrentInstant().Plus(NodaTime.Duration.FromHours(1))
        );
        await opened.GoTo($"/answers?at={at}&zone=Europe/Berlin");
        await Assertions
            .Expect(opened.Page.Locator("#answers"))
            .ToContainTextAsync(at[..16], new() { Timeout = 60_000 });
        var onPhone = await opened.Page.Locator("#answers").TextContentAsync();
        var onLine = await CommandLine.Run(
            "answers",
            "--journal",
            journal,
            "--at",
            at,
            "--zone",
            "Europe/Berlin"
        );

        using var phoneAnswers = JsonDocument.Parse(onPhone!);
        using var lineAnswers = JsonDocument.Parse(onLine);
        Assert.True(lineAnswers.RootElement.GetProperty("entries").GetInt32() > 100);
        Assert.NotEmpty(lineAnswers.RootElement.GetProperty("broods").EnumerateArray());
        // What is compared below is not empty where it matters most: who is alive, in which stage, what is due, water.
        var alive = lineAnswers.RootElement.GetProperty("populations").EnumerateArray().First();
        foreach (var part in new[] { "vessels", "cohorts", "stages", "track" })
        {
            Assert.NotEmpty(alive.GetProperty(part).EnumerateArray());
        }

        Assert.NotEmpty(lineAnswers.RootElement.GetProperty("due").EnumerateArray());
        Assert.Contains(
            lineAnswers.RootElement.GetProperty("waters").EnumerateArray(),
            water => water.GetProperty("limits").GetArrayLength() > 3
        );
        Assert.NotEmpty(lineAnswers.RootElement.GetProperty("vessels").EnumerateArray());
        Same(lineAnswers.RootElement, phoneAnswers.RootElement, "$");
        var told = await CommandLine.Run(
            "alive",
            "--json",
            "--journal",
            journal,
            "--at",
            at,
            "--zone",
            "Europe/Berlin"
        );
        using var lineAlive = JsonDocument.Parse(told);
        SameAlive(
            lineAlive.RootElement.GetProperty("populations"),
            phoneAnswers.RootElement.GetProperty("populations")
        );
    }

    // "alive" names what "answers" gives as the three places of an interval; each figure is held against the phone's.
    private static void SameAlive(JsonElement line, JsonElement phone)
    {
        Assert.Equal(line.GetArrayLength(), phone.GetArrayLength());
        foreach (var (told, shown) in line.EnumerateArray().Zip(phone.EnumerateArray()))
        {
            Three(told, "aliveLarvae", shown, "aliveLarvae");
            Three(told, "survivedShare", shown, "survivedShare");
            Three(told, "juvenilesExpected", shown, "juveniles");
            foreach (
                var (mine, theirs) in new[]
                {
                    ("first", "first"),
                    ("oneInTen", "tenth"),
                    ("half", "half"),
                    ("nineInTen", "nineTenths"),
                }
            )
            {
                Three(told.GetProperty("settlement"), mine, shown.GetProperty("settlement"), theirs);
            }

            foreach (
                var (part, figure, theirs) in new[]
                {
                    ("vessels", "aliveLarvae", "aliveLarvae"),
                    ("cohorts", "aliveLarvae", "aliveLarvae"),
                    ("stages", "aliveLarvae", "larvae"),
                    ("track", "aliveLarvae", "aliveLarvae"),
                }
            )
            {
                var (ours, others) = (told.GetProperty(part), shown.GetProperty(part));
                Assert.Equal(ours.GetArrayLength(), others.GetArrayLength());
                foreach (var (one, other) in ours.EnumerateArray().Zip(others.EnumerateArray()))
                {
                    Three(one, figure, other, theirs);
                    foreach (var same in new[] { "stage", "share", "at" })
                    {
                        if (one.TryGetProperty(same, out var value))
                        {
                            Same(value, other.GetProperty(same), $"$.{part}.{same}");
                        }
                    }
                }
            }
        }
    }

    private static void Three(JsonElement told, string figure, JsonElement shown, string theirs)
    {
        var places = shown.GetProperty(theirs).EnumerateArray().ToList();
        Assert.Equal(3, places.Count);
        foreach (var (member, place) in told.GetProperty(figure).EnumerateObject().Zip(places))
        {
            Same(member.Value, place, $"$.{figure}.{member.Name}");
        }
    }

    // The phone writes the day's forecast by itself; the journals are the same once that has reached the server.
    private static async Task BothHoldTheSame(Opened opened, string journal, int invented)
    {
        for (var attempt = 0; attempt < 40; attempt++)
        {
            await opened.Rest();
            var onPhone = await opened.Page.Locator("#answers").TextContentAsync();
            using var phone = JsonDocument.Parse(onPhone!);
            if (Entries(phone) is var held && held > invented && held == await EntriesOnDisk(journal))
            {
                return;
            }
        }

        Assert.Fail("The phone and the server did not come to hold the same entries.");
    }

    private static async Task<int> EntriesOnDisk(string journal)
    {
        using var answers = JsonDocument.Parse(await CommandLine.Run("answers", "--journal", journal));
        return Entries(answers);
    }

    private static int Entries(JsonDocument answers) => answers.RootElement.GetProperty("entries").GetInt32();

    private static void Same(JsonElement expected, JsonElement found, string path)
    {
        Assert.True(expected.ValueKind == found.ValueKind, $"{path}: {expected} and {found}");
        switch (expected.ValueKind)
        {
            case JsonValueKind.Object:
                var members = expected.EnumerateObject().ToList();
                Assert.Equal(members.Select(m => m.Name), found.EnumerateObject().Select(m => m.Name));
                foreach (var member in members)
                {
                    Same(member.Value, found.GetProperty(member.Name), $"{path}.{member.Name}");
                }

                break;
            case JsonValueKind.Array:
                Assert.True(expected.GetArrayLength() == found.GetArrayLength(), $"{path}: other lengths");
                for (var i = 0; i < expected.GetArrayLength(); i++)
                {
                    Same(expected[i], found[i], $"{path}[{i}]");
                }

                break;
            case JsonValueKind.Number:
                var (x, y) = (expected.GetDouble(), found.GetDouble());
                Assert.True(Math.Abs(x - y) <= Agreement * Math.Max(1, Math.Abs(x)), $"{path}: {x} and {y}");
                break;
            case JsonValueKind.String
                when InstantPattern.ExtendedIso.Parse(expected.GetString()!) is { Success: true } at:
                // Days turned into nanoseconds: the ninth decimal of a day.
                var other = InstantPattern.ExtendedIso.Parse(found.GetString()!).Value;
                var apart = Math.Abs((at.Value - other).TotalDays);
                Assert.True(apart <= Agreement, $"{path}: {expected} and {found}");
                break;
            default:
                Assert.True(expected.ToString() == found.ToString(), $"{path}: {expected} and {found}");
                break;
        }
    }
}
