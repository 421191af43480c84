using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Settling;
using CsCheck;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Settling;

public class SurvivalFileTests
{
    private static readonly VesselId Nursery = new(Fixed(70));
    private static readonly KeptJournal Given = new KeptJournal()
        .Write(At(5, 1), new VesselSetUp(Nursery, "Nursery", VesselRole.Nursery))
        .Write(At(6, 1), new JuvenilesGivenAway(Nursery, 12, "the club"));

    private static CareCode Code => NurseryBook.GiftsOf(Given.House()).Single().Code;

    [Fact]
    public void What_was_written_is_read_again() =>
        Gen.Select(Gen.Guid, Gen.Int[0, 500], Gen.Int[0, 500], Gen.Bool)
            .Sample(
                (id, alive, more, says) =>
                {
                    var told = new SurvivalTold(
                        CareCode.Of(new(id)),
                        new(2026, 8, 1),
                        alive,
                        alive + more == 0 || !says ? null : alive + more,
                        says ? "two died in the bag" : null
                    );
                    Assert.Equal(told, SurvivalFile.Read(SurvivalFile.Write(told)).Value);
                }
            );

    [Theory]
    [InlineData("", "survival-not-read")]
    [InlineData("[]", "survival-not-read")]
    [InlineData("null", "survival-not-read")]
    [InlineData("{\"format\":\"something\"}", "survival-not-read")]
    [InlineData("{\"format\":\"broodtide-survival\",\"version\":2}", "survival-other-version")]
    [InlineData("{\"format\":\"broodtide-survival\",\"version\":1,\"colour\":\"red\"}", "survival-not-read")]
    [InlineData(
        "{\"format\":\"broodtide-survival\",\"version\":1,\"card\":\"7Q4M-2KX9-3X\"}",
        "survival-code-wrong"
    )]
    public void What_is_no_such_file_is_told(string text, string code) =>
        Assert.Equal(code, SurvivalFile.Read(Encoding.UTF8.GetBytes(text)).Reason!.Code);

    [Theory]
    [InlineData("2026-13-01", 3, 5, null, "survival-day-wrong")]
    [InlineData(null, 3, 5, null, "survival-day-wrong")]
    [InlineData("2026-08-01", -1, null, null, "survival-number-wrong")]
    [InlineData("2026-08-01", null, null, null, "survival-number-wrong")]
    [InlineData("2026-08-01", 3, 0, null, "survival-number-wrong")]
    [InlineData("2026-08-01", 100001, null, null, "survival-number-wrong")]
    [InlineData("2026-08-01", 6, 5, null, "survival-more-than-came")]
    [InlineData("2026-08-01", 3, 5, "\u0007", "survival-note-wrong")]
    public void What_cannot_be_is_told(string? on, int? alive, int? received, string? note, string code) =>
        Assert.Equal(code, SurvivalFile.Told(Code.Text, on, alive, received, note).Reason!.Code);

    [Fact]
    public void A_file_without_end_is_not_read() =>
        Assert.Equal(
            "survival-too-long",
            SurvivalFile.Read(new byte[SurvivalFile.MostBytes + 1]).Reason!.Code
        );

    [Fact]
    public void No_bytes_make_the_reader_throw() =>
        Gen.Byte.Array[0, 200].Sample(bytes => SurvivalFile.Read(bytes) is not null);

    [Fact]
    public void What_fits_the_journal_becomes_an_entry_and_stands_with_the_giving()
    {
        var told = SurvivalFile.Told(Code.Text, "2026-06-20", 9, 12, "one jumped").Value;
        var hearing = SurvivalHearing.Hear(Given.House(), told, At(6, 25), Zone).Value;
        Assert.Null(hearing.Doubt);
        Assert.Equal(At(6, 20), hearing.At);
        var kept = new KeptJournal()
            .Write(At(5, 1), new VesselSetUp(Nursery, "Nursery", VesselRole.Nursery))
            .Write(At(6, 1), new JuvenilesGivenAway(Nursery, 12, "the club"))
            .Write(hearing.At, hearing.Fact);
        var gift = NurseryBook.GiftsOf(kept.House()).Single();
        Assert.Equal(9, gift.Heard.Single().Told.Alive);
        Assert.Equal(
            "survival-heard-already",
            SurvivalHearing.Hear(kept.House(), told, At(6, 25), Zone).Reason!.Code
        );
    }

    [Theory]
    [InlineData("2026-05-20", 9, "survival-day-not-since")]
    [InlineData("2026-07-20", 9, "survival-day-not-since")]
    [InlineData("2026-06-20", 13, "survival-more-than-given")]
    public void What_does_not_fit_the_journal_is_told(string on, int alive, string code) =>
        Assert.Equal(
            code,
            SurvivalHearing
                .Hear(
                    Given.House(),
                    SurvivalFile.Told(Code.Text, on, alive, null, null).Value,
                    At(6, 25),
                    Zone
                )
                .Reason!.Code
        );

    [Fact]
    public void A_code_of_another_house_is_told() =>
        Assert.Equal(
            "survival-code-of-no-card",
            SurvivalHearing
                .Hear(
                    Given.House(),
                    SurvivalFile.Told(CareCode.Of(new(Fixed(5))).Text, "2026-06-20", 1, null, null).Value,
                    At(6, 25),
                    Zone
                )
                .Reason!.Code
        );
}
