using Broodtide.Workbench.Sensors;
using CsCheck;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class DayBlockTests
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly SensorDay Day = new(Water, new LocalDate(2026, 3, 1));

    // Worked out from docs/sensors.md by a script that is no part of the program.
    [Fact]
    public void The_written_form_stays_what_it_was()
    {
        var block = DayBlock.Of(
            Day,
            "Cel",
            [Reading(0, 24.5), Reading(10_000, 24.5625), Reading(20_250, 24)]
        );
        Assert.Equal(
            "42544442010d7368656c662d312f77617465720343656cc2c002030300a09c01f403000490f41de209f157",
            Convert.ToHexStringLower(block.Content.Span)
        );
    }

    [Fact]
    public void What_is_written_is_read_again() =>
        Gen.Select(Gen.Int[0, 86_399_999], Values)
            .List[1, 300]
            .Sample(rows =>
            {
                var block = DayBlock.Of(Day, "Cel", rows.Select(row => Reading(row.Item1, row.Item2)));
                var read = DayBlock.Read(block.ToBytes(), block.Sha256).Value;
                Assert.Equal(block.Readings, read.Readings);
                Assert.Equal((block.Day, "Cel", block.Sha256), (read.Day, read.Unit, read.Sha256));
            });

    [Fact]
    public void The_order_of_arrival_does_not_change_the_name() =>
        Gen.Select(Gen.Int[0, 86_399_999], Gen.Double[15, 30])
            .List[2, 50]
            .Sample(rows =>
            {
                var distinct = rows.DistinctBy(row => row.Item1).ToList();
                var readings = distinct.Select(row => Reading(row.Item1, row.Item2)).ToList();
                Assert.Equal(
                    DayBlock.Of(Day, "Cel", readings).Sha256,
                    DayBlock.Of(Day, "Cel", readings.AsEnumerable().Reverse()).Sha256
                );
            });

    [Fact]
    public void A_day_of_a_ten_second_logger_takes_under_two_bytes_a_reading()
    {
        // A slow day of two degrees with one step of noise, as a resolution of 1/16 degree shows it.
        var readings = Enumerable
            .Range(0, 8640)
            .Select(at =>
                Reading(
                    at * 10_000,
                    Math.Round((24 + Math.Sin(at / 1375.0) + (0.03 * ((at * 7919 % 13) - 6) / 6)) * 16) / 16
                )
            );
        Assert.InRange(DayBlock.Of(Day, "Cel", readings).ToBytes().Length, 100, 2 * 8640);
    }

    [Fact]
    public void Bytes_that_were_changed_are_no_block() =>
        Gen.Select(Gen.Int[0, 10_000], Gen.Byte[1, 255])
            .Sample(
                (place, flip) =>
                {
                    var block = DayBlock.Of(Day, "Cel", [Reading(0, 24.5), Reading(10_000, 24.6)]);
                    var bytes = block.ToBytes();
                    bytes[place % bytes.Length] ^= flip;
                    var read = DayBlock.Read(bytes, block.Sha256);
                    // Some bits of the compressed form mean nothing: then the content is the same.
                    Assert.True(!read.Succeeded || read.Value.Readings.SequenceEqual(block.Readings));
                }
            );

    [Fact]
    public void A_reading_of_another_day_or_none_at_all_makes_no_block()
    {
        Assert.Throws<ArgumentException>(() => DayBlock.Of(Day, "Cel", []));
        Assert.Throws<ArgumentException>(() => DayBlock.Of(Day, "Cel", [Reading(86_400_000, 1)]));
        Assert.Throws<ArgumentException>(() => DayBlock.Of(Day, "Cel", [Reading(0, double.NaN)]));
        Assert.Throws<ArgumentException>(() => DayBlock.Of(Day, "metre", [Reading(0, 1)]));
    }

    [Fact]
    public void Hours_hold_least_mean_greatest_and_number()
    {
        var hours = HourSummary.Of([
            Reading(3_600_000, 5),
            Reading(0, 1),
            Reading(3_599_999, 4),
            Reading(1, 1),
        ]);
        Assert.Equal(
            [
                new HourSummary(Day.From, 1, 2, 4, 3),
                new HourSummary(Day.From + Duration.FromHours(1), 5, 5, 5, 1),
            ],
            hours
        );
        Assert.Equal(
            Instant.FromUtc(1969, 12, 31, 23, 0),
            HourSummary.HourOf(Instant.FromUnixTimeSeconds(-1))
        );
    }

    [Theory]
    [InlineData("shelf-1/water", true)]
    [InlineData("a/b.c_d-9", true)]
    [InlineData("shelf-1", false)]
    [InlineData("a/b/c", false)]
    [InlineData("../x", false)]
    [InlineData("a/", false)]
    [InlineData("a/\u00e4", false)]
    [InlineData("a/#", false)]
    public void A_sensor_has_two_plain_names(string text, bool isOne) =>
        Assert.Equal(isOne, SensorId.Find(text) is not null);

    private static Gen<double> Values { get; } =
        Gen.OneOf(
            Gen.Int[-4000, 4000].Select(steps => steps / 16.0),
            Gen.Int[-40_000, 40_000].Select(steps => steps / 100.0),
            Gen.Double[-1e9, 1e9]
        );

    private static RawReading Reading(int milliseconds, double value) =>
        new(Day.From + Duration.FromMilliseconds(milliseconds), value);
}
