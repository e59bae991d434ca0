@rem Opens the desk in your browser. Lessons are kept in your documents.
@cd /d "%USERPROFILE%\Documents" || cd /d "%USERPROFILE%"
@"%~dp0placewright.exe" desk
@if errorlevel 1 pause
