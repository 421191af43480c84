using Broodtide.Server;

const int NotUnderstood = 2;

var parsed = CommandLine.For(House.Run).Parse(args);
var code = await parsed.InvokeAsync();
return parsed.Errors.Count > 0 ? NotUnderstood : code;
