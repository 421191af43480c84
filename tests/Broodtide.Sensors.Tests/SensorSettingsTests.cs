using Broodtide.Server.Sensors;
using Broodtide.Units;

namespace Broodtide.Sensors.Tests;

public sealed class SensorSettingsTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("settings");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void What_a_file_leaves_out_is_as_it_is_without_a_file()
    {
        var none = Read(null).Value;
        Assert.Equal((400, 15, null), (none.KeepWholeDays, none.EscalateAfterMinutes, none.Mqtt));
        var some = Read("""{ "mqtt": { "host": "broker" } }""").Value;
        Assert.Equal((400, 15), (some.KeepWholeDays, some.EscalateAfterMinutes));
        Assert.Empty(some.People);
        Assert.Equal((1883, false), (some.Mqtt!.Port, some.Mqtt.Tls));
    }

    [Fact]
    public void The_file_of_the_handbook_is_understood()
    {
        var page = File.ReadAllText(Path.Combine(Repository(), "docs", "sensors.md"));
        var settings = page[page.IndexOf("## Settings", StringComparison.Ordinal)..];
        var json = settings.Split("```json")[1].Split("```")[0];
        var read = Read(json).Value;
        Assert.Equal(["first", "second"], read.People.Select(person => person.Key));
        Assert.Equal("start", read.Mail!.Tls);
    }

    [Fact]
    public void A_password_of_the_surroundings_takes_the_place_of_the_files()
    {
        const string text = """
            { "mqtt": { "host": "a", "password": "x" }, "mail": { "host": "a", "from": "b@c.d", "password": "x" } }
            """;
        var read = Read(text, name => name == SensorSettings.BrokerPassword ? "y" : null).Value;
        Assert.Equal(("y", "x"), (read.Mqtt!.Password, read.Mail!.Password));
    }

    [Theory]
    [InlineData("{", "$")]
    [InlineData("""{ "mqqt": {} }""", "$")]
    [InlineData("""{ "mqtt": { "host": "a", "port": 0 } }""", "$.mqtt.port")]
    [InlineData("""{ "keepWholeDays": 1 }""", "$.keepWholeDays")]
    [InlineData(
        """{ "mail": { "host": "far", "from": "a@b.c", "tls": "none", "password": "secret" } }""",
        "$.mail.tls"
    )]
    [InlineData("""{ "people": [{ "key": "a b", "mail": "a@b.c" }] }""", "$.people")]
    [InlineData("""{ "people": [{ "key": "a", "mail": "a@b.c", "quietFrom": "22:00" }] }""", "$.people")]
    public void What_is_not_understood_is_named_by_its_place_and_never_by_its_text(string text, string place)
    {
        var reason = Read(text).Reason!;
        Assert.Equal("sensor-settings-wrong", reason.Code);
        Assert.StartsWith(place, reason["member"]!.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("secret", reason.ToString(), StringComparison.Ordinal);
    }

    private Parsed<SensorSettings> Read(string? text, Func<string, string?>? surroundings = null)
    {
        if (text is not null)
        {
            File.WriteAllText(Path.Combine(_folder.FullName, SensorSettings.FileName), text);
        }

        return SensorSettings.Read(_folder, surroundings ?? (_ => null));
    }

    private static string Repository()
    {
        var at = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(at.FullName, "Broodtide.slnx")))
        {
            at = at.Parent!;
        }

        return at.FullName;
    }
}
