using System.Text;
using Broodtide.Workbench.Sensors;
using CsCheck;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class SensorMessagesTests
{
    [Theory]
    [InlineData("""{"at":"2026-03-01T21:05:00.25Z","seq":7,"value":24.5,"unit":"Cel"}""")]
    [InlineData("""[{"at":1772399100250,"seq":7,"value":24.5,"unit":"Cel"}]""")]
    public void A_time_is_a_text_in_utc_or_milliseconds_since_1970(string text) =>
        Assert.Equal(
            new SentReading(
                Instant.FromUtc(2026, 3, 1, 21, 5) + Duration.FromMilliseconds(250),
                7,
                24.5,
                "Cel"
            ),
            Assert.Single(SensorMessages.ReadReadings(Encoding.UTF8.GetBytes(text)).Value)
        );

    [Theory]
    [InlineData("", "sensor-message-not-json")]
    [InlineData("24.5", "sensor-message-not-json")]
    [InlineData("[1]", "sensor-message-not-json")]
    [InlineData("[[]]", "sensor-message-not-json")]
    [InlineData("{}", "sensor-message-member-wrong")]
    [InlineData("""{"unit":"Cel"}""", "sensor-message-member-wrong")]
    [InlineData("""{"unit":"Cel","value":"24"}""", "sensor-message-member-wrong")]
    [InlineData("""{"unit":"Cel","value":NaN}""", "sensor-message-not-json")]
    [InlineData("""{"unit":"Cel","value":24,"seq":-1}""", "sensor-message-member-wrong")]
    [InlineData("""{"unit":"Cel","value":24,"seq":1.5}""", "sensor-message-member-wrong")]
    [InlineData("""{"unit":"Cel","value":24,"at":"yesterday"}""", "sensor-message-member-wrong")]
    [InlineData("""{"unit":"Cel","value":24,"at":1e300}""", "sensor-message-member-wrong")]
    [InlineData(
        """{"unit":"Cel","value":24,"at":"2026-03-01T21:05:00+01:00"}""",
        "sensor-message-member-wrong"
    )]
    [InlineData("""{"unit":"\ud800","value":24}""", "sensor-message-not-json")]
    [InlineData("""{"unit":"degrees","value":24}""", "sensor-unit-unknown")]
    [InlineData("""{"unit":"Cel","value":-300}""", "sensor-value-impossible")]
    public void What_is_no_reading_is_told_by_a_code(string text, string code) =>
        Assert.Equal(code, SensorMessages.ReadReadings(Encoding.UTF8.GetBytes(text)).Reason?.Code);

    [Fact]
    public void A_message_has_an_end()
    {
        var one = """{"unit":"Cel","value":1}""";
        var most = $"[{string.Join(',', Enumerable.Repeat(one, SensorMessages.MostReadings))}]";
        Assert.Equal(1000, SensorMessages.ReadReadings(Encoding.UTF8.GetBytes(most)).Value.Count);
        Assert.Equal(
            "sensor-message-too-long",
            SensorMessages.ReadReadings(Encoding.UTF8.GetBytes($"[{one},{most[1..]}")).Reason?.Code
        );
    }

    [Fact]
    public void Whatever_is_sent_is_answered_and_nothing_falls() =>
        Gen.OneOf(
                Gen.Byte.Array[0, 200],
                Gen.String[Gen.Char["{}[]\":,0123456789.eE-+unitvaluesqtCel \\ud"], 0, 60]
                    .Select(Encoding.UTF8.GetBytes)
            )
            .Sample(bytes =>
            {
                SensorMessages.ReadReadings(bytes);
                SensorMessages.ReadAbout(bytes);
                SensorMessages.ReadStatus(bytes);
                SensorTopic.Read(Encoding.Latin1.GetString(bytes));
            });
}
