using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Broodtide.Server.Opening;
using Broodtide.Server.Words;
using Broodtide.Units;
using NodaTime;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.Certificates;

/// <summary>The command "certificate": what the house's authority is, and what can be done with it.</summary>
internal static class CertificateCommands
{
    private const int Refused = 2;
    private const int Failed = 3;

    public static Command For(Option<DirectoryInfo> data)
    {
        var json = new Option<bool>("--json") { Description = "Print as JSON." };
        var file = new Argument<FileInfo>("file")
        {
            Description = "Where to; .pem is written as text, anything else as bytes (DER).",
        };
        var names = new Argument<string>("names")
        {
            Description = "The names it may vouch for, the public one first, as after --open.",
        };
        var show = new Command("show", "Shows the authority, its fingerprint and the server's certificate.")
        {
            json,
        };
        show.SetAction(parsed => Show(new(parsed.GetRequiredValue(data)), parsed.GetValue(json)));
        var renew = new Command("renew", "Makes a new certificate for the server now.");
        renew.SetAction(parsed => Guarded(() => Renew(new(parsed.GetRequiredValue(data)))));
        var export = new Command(
            "export",
            "Writes the authority's certificate, without its key, into a file."
        )
        {
            file,
        };
        export.SetAction(parsed =>
            Guarded(() => Export(new(parsed.GetRequiredValue(data)), parsed.GetRequiredValue(file)))
        );
        var fresh = new Command(
            "new-authority",
            "Makes a new authority in place of the old one; every phone must then be told to trust it."
        )
        {
            names,
        };
        fresh.SetAction(parsed =>
            Guarded(() => NewAuthority(new(parsed.GetRequiredValue(data)), parsed.GetRequiredValue(names)))
        );
        return new Command("certificate", "The house's own authority and the server's certificate.")
        {
            show,
            renew,
            export,
            fresh,
        };
    }

    private static int Show(CertificateFolder folder, bool asJson)
    {
        using var authority = folder.Authority();
        using var server = folder.Server();
        if (asJson)
        {
            Console.Out.WriteLine(CertificateJson.Write(authority, server));
            return 0;
        }

        if (authority is null)
        {
            Tell("authority-none");
            return 0;
        }

        Tell("authority-is", new Argument("name", NameOf(authority)));
        Tell("authority-fingerprint", new Argument("fingerprint", Fingerprint.Of(authority)));
        Tell(
            "authority-vouches",
            new Argument("names", string.Join(", ", NameConstraints.Read(authority).All))
        );
        Tell("authority-until", new Argument("day", Day(authority)));
        Tell("authority-file", new Argument("file", folder.AuthorityFile));
        if (server is null)
        {
            Tell("server-none");
            return 0;
        }

        Tell(
            "server-is",
            new Argument("names", string.Join(", ", CertificateFolder.NamesOf(server).All)),
            new Argument("day", Day(server)),
            new Argument("daysLeft", HouseCertificates.RenewBefore.Days)
        );
        return 0;
    }

    private static int Renew(CertificateFolder folder)
    {
        using var authority = folder.Authority();
        using var server = folder.Server();
        if (authority is null || server is null)
        {
            return Refuse(new Remark(authority is null ? "authority-none" : "server-none"));
        }

        using var renewed = folder.NewServer(
            authority,
            CertificateFolder.NamesOf(server),
            SystemClock.Instance.GetCurrentInstant()
        );
        Tell("renewed", new Argument("day", Day(renewed)));
        return 0;
    }

    private static int Export(CertificateFolder folder, FileInfo file)
    {
        using var authority = folder.Authority();
        if (authority is null)
        {
            return Refuse(new Remark("authority-none"));
        }

        if (string.Equals(file.Extension, ".pem", StringComparison.OrdinalIgnoreCase))
        {
            File.WriteAllText(file.FullName, authority.ExportCertificatePem() + "\n");
        }
        else
        {
            File.WriteAllBytes(file.FullName, authority.RawData);
        }

        Tell("exported", new Argument("file", file.FullName));
        return 0;
    }

    private static int NewAuthority(CertificateFolder folder, string typed)
    {
        var (address, trouble) = OpenAddress.Parse(typed);
        if (address is null)
        {
            return Refuse(trouble!);
        }

        using var authority = folder.NewAuthority(address.Names, SystemClock.Instance.GetCurrentInstant());
        Tell("authority-made");
        Tell("authority-fingerprint", new Argument("fingerprint", Fingerprint.Of(authority)));
        return 0;
    }

    private static int Guarded(Func<int> work)
    {
        try
        {
            return work();
        }
        catch (Exception trouble)
            when (trouble is IOException or UnauthorizedAccessException or CryptographicException)
        {
            Console.Error.WriteLine(
                Said.Sentence("certificate-failed", new Argument("message", trouble.Message))
            );
            return Failed;
        }
    }

    private static int Refuse(Remark reason)
    {
        Console.Error.WriteLine(Said.Sentence(reason));
        return Refused;
    }

    private static void Tell(string code, params ReadOnlySpan<Argument> arguments) =>
        Console.Out.WriteLine(Said.Sentence(code, arguments));

    private static string NameOf(X509Certificate2 certificate) =>
        certificate.GetNameInfo(X509NameType.SimpleName, forIssuer: false);

    private static string Day(X509Certificate2 certificate) =>
        certificate.NotAfter.ToUniversalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
