using System.Globalization;
using System.Net.Sockets;
using Broodtide.Server.Words;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Server.Sensors;

/// <summary>Hands over a mail that tells of an alarm.</summary>
internal sealed class AlarmMail(MailSettings settings)
{
    private const int TimeoutMilliseconds = 20_000;

    /// <summary>Tells a person.</summary>
    /// <returns>Why it failed, as a code; none where the server took it.</returns>
    public async Task<string?> SendAsync(
        TellingSettings person,
        AlarmSpan alarm,
        Sensor sensor,
        string? vessel,
        int step,
        CancellationToken cancel
    )
    {
        using var message = new MimeMessage();
        if (
            !MailboxAddress.TryParse(settings.From, out var from)
            || !MailboxAddress.TryParse(person.Mail, out var to)
        )
        {
            return "mail-address-wrong";
        }

        var speech = person.Language is "de" ? Speech.German : Speech.English;
        message.From.Add(from);
        message.To.Add(to);
        message.Subject = Subject(alarm, sensor, vessel, speech);
        message.Body = new TextPart("plain") { Text = Text(person, alarm, sensor, vessel, step, speech) };
        // An alarm sent again is the same alarm to a program that sorts mail.
        message.Headers.Add("Auto-Submitted", "auto-generated");
        using var client = new SmtpClient { Timeout = TimeoutMilliseconds };
        try
        {
            await client.ConnectAsync(
                settings.Host,
                settings.Port,
                settings.Tls switch
                {
                    "whole" => SecureSocketOptions.SslOnConnect,
                    "none" => SecureSocketOptions.None,
                    _ => SecureSocketOptions.StartTls,
                },
                cancel
            );
            if (settings.User is { } user)
            {
                await client.AuthenticateAsync(user, settings.Password ?? "", cancel);
            }

            await client.SendAsync(message, cancel);
            await client.DisconnectAsync(quit: true, cancel);
            return null;
        }
        catch (Exception failure) when (CodeOf(failure) is { } code)
        {
            return code;
        }
    }

    private static string? CodeOf(Exception failure) =>
        failure switch
        {
            AuthenticationException => "mail-sign-in-refused",
            SslHandshakeException or NotSupportedException => "mail-not-safe",
            SmtpCommandException => "mail-refused",
            SocketException or IOException or TimeoutException or SmtpProtocolException => "mail-not-reached",
            _ => null,
        };

    private static string Subject(AlarmSpan alarm, Sensor sensor, string? vessel, Speech speech) =>
        Said.Sentence(
            new Remark(
                alarm.Kind switch
                {
                    AlarmKind.TooLow => "alarm-mail.subject.low",
                    AlarmKind.TooHigh => "alarm-mail.subject.high",
                    _ => "alarm-mail.subject.silent",
                },
                new("vessel", vessel ?? sensor.Id.ToString()),
                new("value", Number(alarm.Worst ?? 0)),
                new("unit", UnitSign(sensor.About.Unit))
            ),
            speech
        );

    private static string Text(
        TellingSettings person,
        AlarmSpan alarm,
        Sensor sensor,
        string? vessel,
        int step,
        Speech speech
    )
    {
        var zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(person.Zone ?? "UTC") ?? DateTimeZone.Utc;
        var unit = UnitSign(sensor.About.Unit);
        return string.Join(
            "\r\n\r\n",
            [
                Subject(alarm, sensor, vessel, speech),
                Said.Sentence(
                    new Remark(
                        alarm.Kind is AlarmKind.Silent ? "alarm-mail.since.silent" : "alarm-mail.since",
                        new("sensor", sensor.About.Label ?? sensor.Id.ToString()),
                        new("limit", Number(alarm.Limit)),
                        new("unit", unit),
                        new(
                            "from",
                            LocalDateTimePattern
                                .CreateWithInvariantCulture("uuuu-MM-dd HH:mm")
                                .Format(alarm.From.InZone(zone).LocalDateTime)
                        )
                    ),
                    speech
                ),
                .. step > 0 ? [Said.Sentence(new Remark("alarm-mail.again"), speech)] : Array.Empty<string>(),
                Said.Sentence(new Remark("alarm-mail.seen"), speech),
                Said.Sentence(new Remark("alarm-mail.mains"), speech),
            ]
        );
    }

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private static string UnitSign(string code) =>
        code switch
        {
            "Cel" => "\u00b0C",
            "[degF]" => "\u00b0F",
            "[pH]" => "pH",
            "sal:practical" => "ppt",
            "mg/L{O2}" => "mg/L",
            _ => code,
        };
}
